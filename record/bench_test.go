package record_test

import (
	"testing"

	"hourseal/record"
	"hourseal/record/recordtest"
)

func BenchmarkDecode(b *testing.B) {
	data, err := record.Encode(recordtest.Example())
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := record.Decode(data); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkEncode(b *testing.B) {
	r := recordtest.Example()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := record.Encode(r); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkValidate(b *testing.B) {
	r := recordtest.Example()
	b.ReportAllocs()
	for b.Loop() {
		if err := r.Validate(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkRead is the part of decoding before the bytes are compared.
func BenchmarkRead(b *testing.B) {
	data, err := record.Encode(recordtest.Example())
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := record.Read(data); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkReadSecond is the same by the second decoder.
func BenchmarkReadSecond(b *testing.B) {
	data, err := record.Encode(recordtest.Example())
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := secondRead(data); err != nil {
			b.Fatal(err)
		}
	}
}
