package record

// Checked is a job that was worked out and passed. Only package check makes one
// (a test holds it), and the ledger signs nothing else.
type Checked interface {
	// CheckedRecord returns the record, ready to be encoded. Callers must not
	// change what it points to.
	CheckedRecord() *Record
}

// Earlier is a record that is already in the machine's chain, with its id.
type Earlier struct {
	ID     ID
	Record *Record
}
