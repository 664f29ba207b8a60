package sign

import (
	"bytes"
	"errors"
	"fmt"
)

const (
	// MaxStatements is how many statements one file may hold: a renewal a year,
	// and as many again.
	MaxStatements = 16
	// MaxStatementsBytes is the length of the longest file of statements.
	MaxStatementsBytes = 64 << 10
)

// ReadStatement opens the envelope of one key statement. The error matches
// [ErrMalformed], [ErrWeakKey] or [ErrBadSignature], or says what is wrong inside.
func ReadStatement(envelope []byte) (Statement, error) {
	opened, err := Open(KeyStatementV1, envelope)
	if err != nil {
		return Statement{}, err
	}
	content, err := decodeStatement(opened.Payload)
	if err != nil {
		return Statement{}, err
	}
	return Statement{StatementContent: content, Signer: opened.Signer, Envelope: bytes.Clone(envelope)}, nil
}

// ParseStatements reads key statements as they stand in keys.cose: envelopes one
// after the other, nothing between them, 1 to [MaxStatements]. One that cannot be
// read fails the whole, since what it said might have weighed.
func ParseStatements(data []byte) ([]Statement, error) {
	switch {
	case len(data) == 0:
		return nil, errors.New("key statements: the file is empty")
	case len(data) > MaxStatementsBytes:
		return nil, fmt.Errorf("key statements: %d bytes, the limit is %d", len(data), MaxStatementsBytes)
	}
	var statements []Statement
	for at := 0; at < len(data); {
		if len(statements) == MaxStatements {
			return nil, fmt.Errorf("key statements: more than %d in one file", MaxStatements)
		}
		length, ok := envelopeLength(data[at:])
		if !ok {
			return nil, fmt.Errorf("key statements: at byte %d: %w: no whole envelope begins there", at, ErrMalformed)
		}
		statement, err := ReadStatement(data[at : at+length])
		if err != nil {
			return nil, fmt.Errorf("key statement %d in the file: %w", len(statements)+1, err)
		}
		statements = append(statements, statement)
		at += length
	}
	return statements, nil
}

// envelopeLength is the length of the envelope at the start of data, told by the
// head of its payload alone.
func envelopeLength(data []byte) (int, bool) {
	if len(data) < envelopeHeadBytes {
		return 0, false
	}
	payload, head, ok := bytesHead(data[envelopeHeadBytes:])
	length := envelopeHeadBytes + head + payload + envelopeTailBytes
	return length, ok && length <= len(data)
}

// FormatStatements puts statements into one file, in the order of [SortStatements]
// and each once. No statements are an empty file.
func FormatStatements(statements []Statement) ([]byte, error) {
	sorted := SortStatements(statements)
	if len(sorted) > MaxStatements {
		return nil, fmt.Errorf("%d key statements, at most %d fit in one file", len(sorted), MaxStatements)
	}
	var out []byte
	for _, s := range sorted {
		out = append(out, s.Envelope...)
	}
	if len(out) > MaxStatementsBytes {
		return nil, fmt.Errorf("key statements of %d bytes, the limit is %d", len(out), MaxStatementsBytes)
	}
	return out, nil
}
