// Package enrol asks for what a machine file needs, and for what makes a schedule the
// yard's own.
//
// The questions are in the order in which one stands before the machine: the vessel
// and where in it, the name plate, then at the desk its schedule, its time in service
// and what the handbook says of its fluids. It asks of the systems that the schedule
// needs something of, and of each only what makes sense there: of an oil with a
// dipstick what is in at its upper mark and between the marks, of a coolant what it
// protects to.
//
// What is likely is offered: what other machines of the vessel say of it, and all that
// a machine of the same make and model has in common with this one. A serial number
// and the hours are never offered, since they are this machine's alone and have to be
// read.
//
// A dash and the word unknown say that nobody knows, and what then cannot be worked
// out is said at once. What is odd and may be right (a hull number of no form that we
// know, a serial number that the yard has already) is told as it is typed, and kept
// where a person says that it is right. What cannot be is not taken.
package enrol
