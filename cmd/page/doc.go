// Command page is the verification of hourseal for a web page: the same packages
// as in the program, built with GOOS=js GOARCH=wasm. It has no network, no clock
// and no store; what it knows it is handed with each call.
//
// # Interface
//
// It sets one global object, hourseal, whose functions take and give strings of
// JSON, and bytes as Uint8Array. Reading and answering are two steps: to read a
// picture takes seconds, and to answer again, after a serial number was typed,
// must not.
//
//	read(bytes)                        a file: PDF, JPEG, PNG, record file or text
//	readTexts(kind, texts)             texts of codes, a JSON array; kind "text", "image" or "pdf", a scan
//	readPixels(rgba, w, h, thorough)   a picture that the browser decoded: 4 bytes a pixel, rows from the top
//	unread(reason, hint)               a file of which nothing could be had: why, and what to do instead
//
// Each gives {"input", "kind", "texts", "missing", "picture", "error"}:
//
//	input    a number that stands for what was read, until forget(input)
//	kind     pdf, image, text or record; "" where it could not be told
//	texts    the texts of our codes that were read; with a picture they may be parts
//	missing  null, or {"record", "count", "parts"}: parts of one record were read
//	         and these are not among them; record tells the parts of one record
//	         from another's
//	picture  it is a picture of a sort that is not decoded here: let the browser
//	         try, and give its pixels to readPixels
//	error    "" or why there is no record in it
//
// An input without a record has a number too, and its answer says what is wrong.
//
//	answer(input, reader)
//
// reader is {"serial", "hours", "on", "trust", "statements"}: the serial number on
// the plate and the meter's reading as typed, "" where not; the day as YYYY-MM-DD,
// for what falls due next; whom the reader knows, [{"name", "key", "from",
// "until", "revoked": {"from", "why"}}] with key a line of a .pub file, days as
// YYYY-MM-DD, absent for no bound; key statements (keys.cose) in base64. A field that
// is none of these is an error. The answer:
//
//	verdict, sentence, sections   as of the program, in their fixed order:
//	                              [{"heading", "lines"}]
//	content    null where there is none or it is never shown, else {"heading",
//	           "shown"}; shown is false where the verdict is bad and a person has to
//	           ask for it
//	record     the id of the record or list in hexadecimal, "" without one
//	faults     what of reader could not be used, and why: {"hours": "..."}; it was
//	           left out of the comparison
//
//	content(input)
//
// gives what was signed, {"blocks": [{"heading", "rows", "headed", "text"}]} as of
// package render/plain; no blocks where it is never shown.
//
//	key(line, name, taken)  {"key", "fingerprint", "name_fault"} of a line of a .pub
//	                        file; name_fault is "" or why the key cannot have that
//	                        name; taken are the names that the page's own keys
//	                        have, a JSON array
//	forget(input)           nothing is kept of it
//
// A call that went wrong gives {"error"} alone; nothing ends the program. But for
// texts, which are as they were read, nothing that it gives holds a character that
// does not print.
//
// # What is left out
//
// The page of a PDF is not compared here, since what makes a report again does not
// fit: see renderPage for the figures. Such a PDF has the verdict not-original, and
// the answer says that its record is unaltered and what to go by instead. Key files,
// ssh-agent and the YAML reader of trust files are left out of package sign by its
// build tags.
package main
