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
// The files that a record names, photographs and laboratory sheets, are kept in the
// folder records/<machine>/0001 beside it, under their names ([Session.Keep]). They are
// there before the record is, so that a crash leaves no record whose files were never
// kept. They are no part of the chain: one that is missing or was changed since says
// nothing against a record, and whoever has one holds it to the record's hash.
//
// # Taken over
//
// A chain that another yard began is gone on with ([Session.TakeOver]): the other
// yard's records that are at hand are kept as they came in
// records/<machine>/before/, under their own numbers, and this yard's go on from the
// last of them. They are part of the chain and of its proof; the first of them may
// cite one that is not here. Their machine's id is the other yard's. In before/, what
// is above the last of this yard's records is not part of the chain yet.
//
// # Proof
//
// Two things make a chain: every record is signed, under the key that its
// envelope names; and every record but the first cites the id of the one before
// it, the SHA-256 of that envelope, within what is signed.
//
// A session works out every signature, and adds a record only to a chain in which
// all are good. A reader ([Ledger.Chain]) need not do so once more. Is the
// signature of a record good, then the envelope that it cites is, byte for byte,
// the one that its signer added to: who changed it since would have to find a
// second envelope with the same SHA-256. Does that envelope name the same key,
// then it is proven with it: this key's holder cites it, and with this program
// only after its signature was found good. Does it name another key, its signature
// is worked out; else anybody could write a record in the name of the yard and
// cite it under a key of his own. So the last of each key's unbroken run of
// records is worked out, and what that run cites is hashed.
//
// What this leaves to the holder of a key alone: to sign, by other means than
// this program, a record that cites an envelope with a bad signature in the name
// of the same key, or one in another form than the canonical. A reader takes that
// as the holder's word; a session refuses it.
//
// As soon as anything does not fit, every signature is worked out, oldest first,
// so that the file which is wrong is named.
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
