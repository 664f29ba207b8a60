package verifytest_test

import (
	"bytes"
	"fmt"
)

// writePDF is a PDF by nobody's program: objects numbered from 1, the first of them the
// catalog, by ISO 32000-1 section 7.5. extra goes into the trailer.
func writePDF(extra string, objects ...string) []byte {
	var b bytes.Buffer
	b.WriteString("%PDF-1.4\n")
	var offsets []int
	for i, o := range objects {
		offsets = append(offsets, b.Len())
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	table := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, at := range offsets {
		fmt.Fprintf(&b, "%010d 00000 n \n", at)
	}
	fmt.Fprintf(&b, "trailer\n<< /Size %d /Root 1 0 R%s >>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, extra, table)
	return b.Bytes()
}

func stream(dictionary string, content []byte) string {
	return fmt.Sprintf("<< %s/Length %d >>\nstream\n%s\nendstream", dictionary, len(content), content)
}

const (
	catalog = "<< /Type /Catalog /Pages 2 0 R >>"
	pages   = "<< /Type /Pages /Kids [3 0 R] /Count 1 >>"
	onePage = "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Contents 4 0 R /Resources << /Font << /F1 << /Type /Font /Subtype /Type1 /BaseFont /Helvetica >> >> >> >>"
)

var pageText = stream("", []byte("BT /F1 12 Tf 72 720 Td (Your engine has been serviced.) Tj ET"))

// invoice is a PDF without a record.
func invoice() []byte { return writePDF("", catalog, pages, onePage, pageText) }

// foreignPDF has files in streams of their own.
func foreignPDF(files ...[]byte) []byte {
	objects := []string{catalog, pages, onePage, pageText}
	for _, file := range files {
		objects = append(objects, stream("/Type /EmbeddedFile ", file))
	}
	return writePDF("", objects...)
}

// locked is a PDF with a password: its streams are enciphered, here by changing every
// byte, which no more yields a record than the true cipher would.
func locked(file []byte) []byte {
	enciphered := bytes.Clone(file)
	for i := range enciphered {
		enciphered[i] ^= 0x5A
	}
	const encrypt = "<< /Filter /Standard /V 1 /R 2 /P -44 /O <0000000000000000000000000000000000000000000000000000000000000000> /U <0000000000000000000000000000000000000000000000000000000000000000> >>"
	return writePDF(" /Encrypt 6 0 R /ID [<00><00>]", catalog, pages, onePage, pageText, stream("/Type /EmbeddedFile ", enciphered), encrypt)
}
