package main

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/jobsheet"
)

// attachment is a file that goes with a record: what the record says of it, and where it
// is read from.
type attachment struct {
	record.File
	path string
}

// maxAttachmentBytes is the size of the largest file that goes with a record: a
// photograph of a telephone has 2 to 8 MB (common practice, no source).
const maxAttachmentBytes = 16 << 20

// attachable are the kinds of file that go with a record: those that a reader can still
// open in ten years, and that do nothing when they are opened.
var attachable = []struct {
	kind    string
	endings []string // the first is that offered
	is      func(data []byte) bool
}{
	{"a JPEG picture", []string{".jpg", ".jpeg"}, begins("\xff\xd8\xff")}, // ITU-T T.81, B.1.1.3 and B.2.1
	{"a PNG picture", []string{".png"}, begins("\x89PNG\r\n\x1a\n")},      // W3C PNG, 5.2
	{"a PDF", []string{".pdf"}, begins("%PDF-")},                          // ISO 32000-1, 7.5.2
	{"plain text", []string{".txt", ".csv"}, func(data []byte) bool { return bytes.IndexFunc(data, isControl) < 0 }},
}

// isHEIC says whether a file is a picture of the HEIF kind: a box ftyp with a brand of
// theirs. ISO/IEC 14496-12, 4.3; ISO/IEC 23008-12, 10 and annex B.4 (from memory).
func isHEIC(data []byte) bool {
	return len(data) >= 12 && string(data[4:8]) == "ftyp" && slices.Contains([]string{"heic", "heix", "hevc", "heim", "heis", "mif1", "msf1"}, string(data[8:12]))
}

func begins(with string) func([]byte) bool {
	return func(data []byte) bool { return bytes.HasPrefix(data, []byte(with)) }
}

// isControl is any control character but those of lines, pages and columns. Bytes that
// are no UTF-8 are taken: laboratories write in what their machines have.
func isControl(r rune) bool {
	return r < ' ' && !strings.ContainsRune("\t\n\r\f", r) || r == 0x7f
}

// secrets are what files of private keys hold: RFC 7468 and OpenSSH's PROTOCOL.key, RFC
// 4880, and two that are in use beside them (from memory).
var secrets = []string{"PRIVATE KEY-----", "PRIVATE KEY BLOCK-----", "PuTTY-User-Key-File-", "AGE-SECRET-KEY-1"}

// readAttachment reads a file that is to go with a record under a name, and says why it
// cannot.
func readAttachment(path, name string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("not a plain file: attach a photograph, a PDF or a text")
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, maxAttachmentBytes+1))
	if err != nil {
		return nil, err
	}
	return data, mayAttach(data, name)
}

// mayAttach says why a file cannot go with a record.
func mayAttach(data []byte, name string) error {
	switch {
	case len(data) == 0:
		return errors.New("empty: nothing is there to be kept")
	case len(data) > maxAttachmentBytes:
		return fmt.Errorf("larger than %d MiB: save it smaller", maxAttachmentBytes>>20)
	}
	for _, secret := range secrets {
		if bytes.Contains(data, []byte(secret)) {
			return errors.New("holds a private key: whoever gets the record's files would have it")
		}
	}
	for _, a := range attachable {
		switch {
		case !a.is(data):
		case slices.Contains(a.endings, strings.ToLower(filepath.Ext(name))):
			return nil
		default:
			stem := strings.TrimSuffix(name, filepath.Ext(name))
			return fmt.Errorf("%s, and no name for one: %s would be", a.kind, stem+a.endings[0])
		}
	}
	if isHEIC(data) {
		return errors.New("an HEIC picture, as some telephones take: save as JPEG")
	}
	return errors.New("neither a JPEG or PNG picture, a PDF nor plain text (.txt, .csv): save it as one of them")
}

func attachmentOf(path, name string, data []byte) attachment {
	return attachment{record.File{Name: name, SHA256: sha256.Sum256(data)}, path}
}

// safeName makes a name that every system can keep of a file's own: what is none of
// letters, digits, full stops, hyphens and low lines becomes a hyphen.
func safeName(path string) string {
	base := filepath.Base(filepath.ToSlash(path))
	ending := filepath.Ext(base)
	stem := safePart(strings.TrimSuffix(base, ending))
	ending = safePart(strings.TrimPrefix(ending, "."))
	if ending != "" {
		ending = "." + ending
	}
	if room := record.MaxText - len(ending); len(stem) > room {
		stem = stem[:max(0, room)]
	}
	return stem + ending
}

func safePart(text string) string {
	var out strings.Builder
	for _, r := range text {
		if r < 0x80 && jobsheet.FileNameByte(byte(r)) {
			out.WriteRune(r)
		} else if s := out.String(); s != "" && s[len(s)-1] != '-' {
			out.WriteByte('-')
		}
	}
	return strings.Trim(out.String(), "._-")
}
