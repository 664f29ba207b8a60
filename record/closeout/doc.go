// Package closeout asks for a job in the order of the work, and makes a job sheet of
// the answers.
//
// It asks only what the job needs: for each task that is due or soon due what became
// of it, and for each that was done the evidence that the schedule wants; a reason
// for what is put off, with the advice and the owner's answer; and for what comes
// out, goes in and is fitted no more than the done tasks call for. What is likely is
// offered: today, the last technician and place, what a system was filled with last
// time. No reading, amount or level is offered, since an offer would be taken; but what
// somebody typed and took back is.
//
// After each answer that something follows from the check is run over the job as it
// stands. What cannot be is not taken, and the question asked again; what needs a
// reason is asked for one there and then. What speaks only of things that are still
// to be asked waits until the end, when the whole is checked once more.
//
// A level is asked for before what is expected is told, so that it is read and not
// copied.
package closeout
