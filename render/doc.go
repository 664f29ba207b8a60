// Package render prints records: the service report with its code, and the label
// for the filter or engine.
//
// # Report
//
// [Report] is a pure function of the record, its envelope, its QR texts and the
// key statements: the same arguments give the same bytes, in any process, under
// any number of goroutines, with one Go release (another may deflate the
// streams differently; their contents stay the same). It reads no clock; both
// dates of the file are the record's time of issue.
//
// The report shows everything that the record holds, in this order: who made
// it; what has to be read first (overfilled; an addendum, correction or void);
// the machine with its hours; the job; what was done on the schedule; what was
// put off or left, or seen in what was drained; other work; fluids; parts; the look for leaks; what the
// figures say; what falls due next, and by which schedule; notes; files kept
// beside the record; cautions; who signed, with the code; what a signature
// shows and does not. A section of which the record says nothing is left out,
// but for the schedule's tasks, what was left and the look for leaks: there
// the silence is worth a line.
//
// # Fluids
//
// Of each system, side by side: what it is; what came out and what went in, as two
// bars on one scale with a line through both at what the system holds, and in words
// as written and at 15 degC; the dipstick between its two marks, with the level after
// the job filled in, the one before as a notch and the one expected as a frame one
// standard uncertainty wide each way. Below them what follows, in sentences, and,
// from three points on, the oil used in 100 h at each service against the hours.
//
// What follows is the record's own balance, which the check worked out; nothing is
// worked out here but shares and roundings. That fill and level agree is said only
// where the check found nothing to say against it, and that fuel or coolant cannot be
// excluded wherever it did not find that oil was gained.
//
// # The file
//
// A4 or Letter as the record says. Two faces, one dark accent; all that colour
// says is said in words or shapes too. Attachments, in this order: record.cose
// (the envelope), record.txt (the QR texts, each ended by a newline) and, where
// there are any, keys.cose.
//
// # The code
//
// Each QR text becomes one code at level M, 80 mm wide less what rounding its
// modules down to 1/100 pt takes, with four modules of white around it
// (ISO/IEC 18004), drawn as vector rectangles. One code stands beside the words
// on who signed; several stand two in a row, each under its number and the
// warning.
//
// # Layouts
//
// A record names the layout that it was issued with. [RendererID] is the only
// one that this package knows; another gives [ErrUnknownRenderer].
package render
