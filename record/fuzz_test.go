package record_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"hourseal/record"
)

// FuzzDecode: nothing panics, and what is read has one encoding, the one it was
// read from, and can be shown.
func FuzzDecode(f *testing.F) {
	for _, e := range examples {
		f.Add(encoded(f, e.make()))
	}
	for _, v := range vectors(f) {
		f.Add(v.bytes(f))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := record.Decode(data)
		if err != nil {
			return
		}
		if again, err := record.Encode(r); err != nil || !bytes.Equal(again, data) {
			t.Fatalf("%x\nis encoded again as\n%x, %v", data, again, err)
		}
		if _, err := json.Marshal(r); err != nil {
			t.Fatal(err)
		}
	})
}

// TestEveryByteChanged: of all changes of one byte of the example those that can
// be read at all are other records with an encoding of their own.
func TestEveryByteChanged(t *testing.T) {
	original := encoded(t, examples[0].make())
	read := 0
	for i := range original {
		for _, bit := range []byte{0x01, 0x02, 0x04, 0x08, 0x10, 0x20, 0x40, 0x80, 0xff} {
			data := bytes.Clone(original)
			data[i] ^= bit
			r, err := record.Decode(data)
			if err != nil {
				continue
			}
			read++
			if again := encoded(t, r); !bytes.Equal(again, data) {
				t.Fatalf("byte %d ^ %02x has two encodings", i, bit)
			}
		}
	}
	t.Logf("%d of %d changes give other records", read, 9*len(original))
}
