package source_test

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"strings"
	"testing"

	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

// Bombs: a small file that inflates to much stops at the limit. The record is
// in front, so the search has every reason to go on.
func TestBombs(t *testing.T) {
	envelope := record(t, "Gannet", 600)
	pdf := reportOf(t, envelope).bytes(t)
	zeros := func(n int) sourcetest.Edit { return func([]byte) []byte { return make([]byte, n) } }
	t.Run("one stream", func(t *testing.T) {
		refused(t, must(t)(sourcetest.EditPage(pdf, 1, zeros(4<<20+1))), envelope, "longer than the limit")
	})
	t.Run("at the limit", func(t *testing.T) {
		if _, err := source.ReadPDF(must(t)(sourcetest.EditPage(pdf, 1, zeros(4<<20)))); err != nil {
			t.Error(err)
		}
	})
	t.Run("many streams", func(t *testing.T) {
		r := reportOf(t, envelope)
		for len(r.pages) < 6 {
			r.pages = append(r.pages, r.pages[0])
		}
		pdf := r.bytes(t)
		for page := range r.pages {
			pdf = must(t)(sourcetest.EditPage(pdf, page+1, zeros(3<<20)))
		}
		refused(t, pdf, envelope, "longer than the limit")
	})
	t.Run("empty blocks", func(t *testing.T) {
		// Stored blocks of no bytes: input without output.
		blocks := bytes.Repeat([]byte{0, 0, 0, 0xff, 0xff}, 1<<20)
		bomb := append([]byte("%PDF-1.3\n1 0 obj\n<<>>\nstream\n\x78\x01"), blocks...)
		if _, err := source.Read(bomb); !errors.Is(err, source.ErrNoRecord) {
			t.Error(err)
		}
	})
	t.Run("streams in streams", func(t *testing.T) {
		// Each stored block starts a further stream that runs to the end.
		step := append([]byte("stream\n\x78\x01"), 0, 7, 0, 0xf8, 0xff)
		bomb := append([]byte("%PDF-1.3\n"), bytes.Repeat(step, 500_000)...)
		if _, err := source.Read(bomb); !errors.Is(err, source.ErrTooLarge) && !errors.Is(err, source.ErrNoRecord) {
			t.Error(err)
		}
	})
	t.Run("inflates to a gigabyte", func(t *testing.T) {
		var b bytes.Buffer
		b.WriteString("%PDF-1.3\n")
		var one bytes.Buffer
		w := zlib.NewWriter(&one)
		if _, err := w.Write(make([]byte, 4<<20)); err != nil {
			t.Fatal(err)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		for range 256 {
			b.WriteString("stream\n")
			b.Write(one.Bytes())
			b.WriteString("\nendstream\n")
		}
		if _, err := source.Read(b.Bytes()); !errors.Is(err, source.ErrTooLarge) {
			t.Error(err)
		}
	})
	t.Run("many keys", func(t *testing.T) {
		var b bytes.Buffer
		b.WriteString("%PDF-1.3\n1 0 obj\n<<")
		for i := range 500_000 {
			fmt.Fprintf(&b, "/A%d 0 ", i)
		}
		if _, err := source.ReadPDF(b.Bytes()); err == nil || !strings.Contains(err.Error(), "too many keys") {
			t.Error(err)
		}
	})
	t.Run("deep nesting", func(t *testing.T) {
		deep := "%PDF-1.3\n1 0 obj\n" + strings.Repeat("<</A ", 1<<20)
		if _, err := source.ReadPDF([]byte(deep)); err == nil || !strings.Contains(err.Error(), "nested too deeply") {
			t.Error(err)
		}
	})
}
