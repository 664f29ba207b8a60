package words

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"sync"

	"hourseal/templates"
)

// once loads one of the embedded files on first use. The files are part of the
// program, so a fault in one is a fault in the program, which the tests find.
func once[T any](name string) func() T {
	return sync.OnceValue(func() T {
		data, err := fs.ReadFile(templates.Words(), name)
		if err != nil {
			panic("words: " + err.Error()) // embedded, tested
		}
		table, err := parse[T](data)
		if err != nil {
			panic("words: " + name + ": " + err.Error()) // embedded, tested
		}
		return table
	})
}

// parse reads a table of words, one JSON value; a key that the table does not have
// is an error. JSON lets a key pass that is there twice, or in capitals: the test
// in package templates that makes the files refuses those.
func parse[T any](data []byte) (T, error) {
	var table T
	decoder := json.NewDecoder(bytes.NewReader(data))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&table); err != nil {
		return table, fmt.Errorf("read words: %w", err)
	}
	if _, err := decoder.Token(); !errors.Is(err, io.EOF) {
		return table, errors.New("read words: something stands behind the value")
	}
	return table, nil
}

// Warm loads all tables.
func Warm() {
	report()
	findings()
	cautions()
}
