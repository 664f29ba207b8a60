// Package statement prints the statement of a machine's history.
//
// # What it is
//
// [Statement] is a pure function of a judged machine (package verify/history) and its
// [Settings]: the same arguments give the same bytes. It reads no clock; both dates of
// the file are the day that it is made on. Nothing is judged here: the sentences are
// those of package verify/history, the captions stand in templates/words.
//
// # The page to read
//
// The first page has everything that a reader has to know, in this order: the
// judgement in one sentence; the machine; what to know first, the worst first; a chart
// of the hours against the date, with how one task was kept as bands behind it; a bar
// for each task; the questions; what no history shows. What does not fit is counted,
// with the page that has it in full.
//
// # The chart
//
// A record that counts is a black mark on the line, one that does not a hollow mark off
// it. The line is broken where a record is cited and missing; a cross stands at the
// date and hours that it is cited with. A change of meter is marked M. Marks that would
// lie on each other are drawn once. The bands are those of the task with the most hours
// run overdue, else of the first replacement of the schedule that was done, else of the
// first task.
//
// Bands and bars say the same in the same way, for a black-and-white print: light is
// inside the interval, hatched past due within the schedule's own grace, dark overdue,
// blank not known. Their widths are days. What is shorter than a point is drawn a point
// wide, so that nothing overdue is lost.
//
// # The pages to consult
//
// Each task with every time that it was done and when it was due then; where the
// machine stood on the day asked about; all records with their ids and who signed;
// where the chains end; lists and ledger lines; what was set aside.
//
// # Letters
//
// Names come from the reader's own files and from strangers' records: a letter that the
// faces cannot print becomes a question mark, which is said at the foot.
package statement
