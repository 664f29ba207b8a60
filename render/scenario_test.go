package render

import (
	"bytes"
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/sign"
	"hourseal/sign/qrtext"
)

func ptr[T any](v T) *T { return &v }

// must takes a figure that the test wrote itself.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func hours(text string) quantity.Hours { return must(quantity.ParseHours(text)) }

func sum(texts ...string) *quantity.Measured {
	var portions []quantity.Portion
	for _, text := range texts {
		portions = append(portions, must(quantity.ParsePortion(text)))
	}
	return ptr(must(quantity.SumOf(portions...)))
}

// The records that the tests print: the invented yard's example, the shortest
// that is allowed, and the longest.
func example() *record.Record  { return recordtest.Example() }
func shortest() *record.Record { return recordtest.Shortest() }
func longest() *record.Record  { return recordtest.Longest() }

// accounted is the example with what follows from its figures.
func accounted() *record.Record { return recordtest.Accounted() }

// testKey is a key that everybody knows.
func testKey() *sign.PrivateKey {
	return must(sign.NewKey(bytes.NewReader(bytes.Repeat([]byte{7}, 32))))
}

// sealed is a record with what Report needs beside it.
type sealed struct {
	record   *record.Record
	envelope []byte
	texts    []string
}

func seal(t testing.TB, r *record.Record) sealed {
	t.Helper()
	payload, err := record.Encode(r)
	if err != nil {
		t.Fatal(err)
	}
	envelope, err := sign.Seal(sign.RecordV1, payload, testKey())
	if err != nil {
		t.Fatal(err)
	}
	texts, err := qrtext.Encode(envelope, r.PageHost)
	if err != nil {
		t.Fatal(err)
	}
	return sealed{r, envelope, texts}
}

func (s sealed) report(t testing.TB) []byte {
	t.Helper()
	pdf, err := Report(s.record, s.envelope, s.texts, nil)
	if err != nil {
		t.Fatal(err)
	}
	return pdf
}

// scenarios are the four records that the layout is held to.
var scenarios = []struct {
	name string
	make func() *record.Record
}{{"shortest", shortest}, {"example", example}, {"accounted", accounted}, {"longest", longest}}
