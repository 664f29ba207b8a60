package words

import (
	"bytes"
	"fmt"
	"io/fs"
	"sync"

	"go.yaml.in/yaml/v3"

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

// parse reads a table of words; a key that the table does not have is an error.
func parse[T any](data []byte) (T, error) {
	var table T
	decoder := yaml.NewDecoder(bytes.NewReader(data))
	decoder.KnownFields(true)
	if err := decoder.Decode(&table); err != nil {
		return table, fmt.Errorf("read words: %w", err)
	}
	return table, nil
}

// Warm loads all tables.
func Warm() {
	report()
	findings()
	cautions()
}
