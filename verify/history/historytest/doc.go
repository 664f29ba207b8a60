// Package historytest reads the library of histories in testdata/histories, and signs
// them, for tests.
//
// A history is a YAML file: machines, the schedules that were in force, yards with the
// seeds of their keys, and records, each with what was done. The records are sealed with
// keys that everybody can make, in the order of the file. Number, what a record cites,
// and the last and due points of its tasks are worked out as a yard would that knows the
// records which this one cites, directly or by way of others; a file may say otherwise.
// Then comes what the reader has: which records are left out, lists, ledger lines, key
// statements, a log of receipt, the serial number, day and reading that they ask about.
//
// Under "expect" stands the judgement. It is worked out by hand, in the comments above
// it, and never written by a program.
package historytest
