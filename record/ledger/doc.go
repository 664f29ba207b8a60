// Package ledger is the yard's store of signed records.
//
// # Files
//
// A machine's records are records/<machine>/0001.cose, 0002.cose and so on,
// each the signed envelope as it was made. They are never changed and never
// deleted. Each record cites the id of the one before it, so that the files are
// a chain: a changed file, and a missing one except the last, is noticed when
// the chain is read, and named. What nothing here can tell: that the last is
// missing, or that the last was sealed again, whole and right, by another key;
// who may sign is for the reader's trust file to say. Other files in the folder
// are none of the ledger's.
//
// # Writing
//
// A Session holds an OS lock on each of its machines, taken in sorted order so
// that two sessions never wait for each other, from reading the last record to
// storing the new one. Records are sealed and staged first; Commit then writes
// every file under a temporary name, syncs it, and only when all are safely on
// disk gives them their final names, each by a link that cannot replace a file,
// and syncs the folder. A file system without links has them renamed. A crash
// leaves whole records or none, and temporary files that the next session
// sweeps. After an error of Commit a session adds nothing more.
//
// Session.Append takes a record.Checked and nothing else, and is the only
// caller of sign.Seal for records, so that nothing unchecked is ever signed.
package ledger
