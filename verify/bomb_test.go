package verify_test

import (
	"bytes"
	"compress/flate"
	"compress/zlib"
	"fmt"
	"math/big"
	"runtime"
	"strings"
	"testing"

	"hourseal/verify"
	"hourseal/verify/source/sourcetest"
)

// digitsOf writes bytes in the digits of a QR text, in the plainest way.
func digitsOf(b []byte) string {
	width := []int{0, 3, 5, 8, 10, 13, 15, 17}
	var out strings.Builder
	for len(b) > 0 {
		n := min(7, len(b))
		fmt.Fprintf(&out, "%0*d", width[n], new(big.Int).SetBytes(b[:n]))
		b = b[n:]
	}
	return out.String()
}

func deflated(t testing.TB, b []byte) []byte {
	t.Helper()
	var out bytes.Buffer
	w := must[*flate.Writer](t)(flate.NewWriter(&out, flate.BestCompression))
	if _, err := w.Write(b); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// allocated is how many bytes a run takes from the heap in all.
func allocated(run func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	run()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

// Small inputs that stand for much stop at a limit: neither memory nor time
// follow what they would inflate to.
func TestBombsStop(t *testing.T) {
	sealed := shortest(t)
	pdf := sealed.pdf(t)
	edit := must[[]byte](t)
	zeros := func(n int) sourcetest.Edit { return func([]byte) []byte { return make([]byte, n) } }
	threeMiB := deflated(t, make([]byte, 3<<20))
	record := deflated(t, append(bytes.Clone(sealed.envelope), make([]byte, 3<<20)...))
	for _, c := range []struct {
		name    string
		data    []byte
		verdict verify.Verdict
		most    uint64 // bytes allocated
	}{
		{"text of 3 MiB", []byte("hourseal:1" + digitsOf(threeMiB)), verify.Unreadable, 1 << 20},
		{"text of a record and 3 MiB", []byte("hourseal:1" + digitsOf(record)), verify.Unreadable, 1 << 20},
		{"text of empty blocks", []byte("hourseal:1" + digitsOf(append(bytes.Repeat([]byte{0, 0, 0, 0xff, 0xff}, 3000), deflated(t, sealed.envelope)...))), verify.Genuine, 1 << 20},
		{"too many empty blocks", []byte("hourseal:1" + digitsOf(append(bytes.Repeat([]byte{0, 0, 0, 0xff, 0xff}, 4000), deflated(t, sealed.envelope)...))), verify.Unreadable, 1 << 20},
		{"page of 5 MiB", edit(sourcetest.EditPage(pdf, 1, zeros(5<<20))), verify.NotOriginal, 40 << 20},
		{"page of 100 MiB", edit(sourcetest.EditPage(pdf, 1, zeros(100<<20))), verify.NotOriginal, 40 << 20},
		{"attachment of 20 MiB", edit(sourcetest.AddAttachment(pdf, "keys.cose", make([]byte, 20<<20))), verify.NotOriginal, 40 << 20},
		{"file of 9 MiB", append(bytes.Clone(pdf), make([]byte, 9<<20)...), verify.Unreadable, 1 << 20},
		{"record file of 17 KiB", append(bytes.Clone(sealed.envelope), make([]byte, 17<<10)...), verify.Unreadable, 1 << 20},
		{"text file of 1 MiB", bytes.Repeat([]byte("hourseal:1"), 1<<17), verify.Unreadable, 8 << 20},
		{"streams of 3 MiB, forty", manyStreams(40, 3<<20), verify.Unreadable, 200 << 20}, // in all; one buffer at a time
	} {
		t.Run(c.name, func(t *testing.T) {
			verify.Run(sealed.text(), buyer(t), makePage) // so that the pools are filled
			var got verify.Result
			used := allocated(func() { got = verify.Run(c.data, buyer(t), makePage) })
			if got.Verdict != c.verdict {
				t.Errorf("verdict %s: %v, page %+v", got.Verdict, got.Err, got.Page)
			}
			if used > c.most {
				t.Errorf("%d bytes in took %d KiB, the limit is %d KiB", len(c.data), used>>10, c.most>>10)
			}
		})
	}
}

// manyStreams is a PDF of sorts, of n deflated streams that come to size each.
func manyStreams(n, size int) []byte {
	var one bytes.Buffer
	w := zlib.NewWriter(&one)
	w.Write(make([]byte, size))
	w.Close()
	b := []byte("%PDF-1.4\n")
	for range n {
		b = append(append(append(b, "stream\n"...), one.Bytes()...), "\nendstream\n"...)
	}
	return b
}
