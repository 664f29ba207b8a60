package verify_test

import (
	"crypto/sha256"
	"fmt"
	"os"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"hourseal/record"
	"hourseal/record/recordtest"
	"hourseal/sign"
	"hourseal/verify"
)

// digitsAt is where the digits of a text begin.
func digitsAt(text string) int { return strings.IndexAny(text, "#") + 1 }

// shortRecord fits one code, and has a page.
func shortRecord(t testing.TB) issued {
	r := recordtest.Shortest()
	r.PageHost = "verify.ellery-slip.example"
	sealed := seal(t, r, yardSeed)
	if len(sealed.texts) != 1 {
		t.Fatalf("%d texts", len(sealed.texts))
	}
	return sealed
}

// inTwoCodes is a record with so much in its notes that it takes two codes.
func inTwoCodes(t testing.TB, r *record.Record) issued {
	t.Helper()
	r.Notes = ""
	for i := range 9 {
		r.Notes += fmt.Sprintf("%x", sha256.Sum256([]byte{byte(i)}))
	}
	sealed := seal(t, r, yardSeed)
	if len(sealed.texts) != 2 {
		t.Fatalf("%d texts", len(sealed.texts))
	}
	return sealed
}

// printedBefore is the example with its two texts from before codes had a
// dictionary: package qrtext keeps them.
func printedBefore(t testing.TB) issued {
	t.Helper()
	sealed := example(t)
	sealed.texts = strings.Fields(string(must[[]byte](t)(os.ReadFile("../sign/qrtext/testdata/texts/2-example.txt"))))
	return sealed
}

const genuineOwnerOnPaper = "Unaltered, and signed by Ellery Slip Boatyard, the owner. Nobody has checked that the work was done. What the paper itself says was not compared."

// A text that was misread or changed is the very same record or none: the last
// byte of what is deflated has bits that mean nothing, and a record is known by
// its id.
func TestNoChangeOfTextPasses(t *testing.T) {
	for name, sealed := range map[string]issued{"one code": shortRecord(t), "two codes": inTwoCodes(t, recordtest.Example())} {
		t.Run(name, func(t *testing.T) {
			reader, id := buyer(t), record.ID(sign.IDOf(sealed.envelope))
			var looked, same atomic.Int64
			run := func(what string, at int, texts ...string) {
				looked.Add(1)
				got := verify.Run([]byte(strings.Join(texts, "\n")), reader, nil)
				switch {
				case got.Verdict == verify.Genuine && *got.Record == id:
					same.Add(1)
				case got.Verdict != verify.Altered && got.Verdict != verify.Unreadable:
					t.Errorf("%s at %d: %s", what, at, got.Verdict)
				}
			}
			for i, text := range sealed.texts {
				with := func(changed string) []string {
					texts := slices.Clone(sealed.texts)
					texts[i] = changed
					return texts
				}
				inParallel(len(text)-digitsAt(text), func(n int) {
					at := digitsAt(text) + n
					for d := byte('0'); d <= '9'; d++ {
						if d != text[at] {
							run("digit", at, with(text[:at]+string(d)+text[at+1:])...)
						}
					}
					run("truncation", at, with(text[:at])...)
					run("digit left out", at, with(text[:at]+text[at+1:])...)
					run("digit twice", at, with(text[:at+1]+text[at:])...)
					run("letter", at, with(text[:at]+"O"+text[at+1:])...)
					run("end twice", at, with(text+text[at:])...)
					run("beginning twice", at, with(text[:at]+text[digitsAt(text):])...)
				})
			}
			t.Logf("%d changed texts; %d stand for the very same record", looked.Load(), same.Load())
			// Seven unused bits at most, in the last of the digits: a handful.
			if same.Load() > 20 {
				t.Error("more texts stand for the record than its unused bits allow")
			}
		})
	}
}

// What a telephone, a mail program or a person does to a text on its way.
func TestTextsOnTheirWay(t *testing.T) {
	one, two, before := shortRecord(t), inTwoCodes(t, recordtest.Example()), printedBefore(t)
	other := inTwoCodes(t, otherExample(t).record)
	digits := one.texts[0][digitsAt(one.texts[0]):]
	stranger := "HTTPS://VERIFY.PORT-ELLERY-SLIP.EXAMPLE/#" + digits
	owner := "unaltered and signed by Ellery Slip Boatyard, the owner."
	for _, c := range []struct {
		name     string
		text     string
		verdict  verify.Verdict
		sentence string
		detail   string
	}{
		{"as scanned", one.texts[0], verify.Genuine, genuineOwnerOnPaper, "What the paper itself says was not compared"},
		{"lower case, line ends", "\r\n" + strings.ToLower(one.texts[0]) + "\r\n", verify.Genuine, genuineOwnerOnPaper, ""},
		{"twice", one.texts[0] + "\n" + one.texts[0], verify.Genuine, genuineOwnerOnPaper, ""},
		{"both codes, wrong order", two.texts[1] + "\n" + two.texts[0], verify.Genuine, genuineOnPaper, ""},
		{"both codes of an old report", before.texts[1] + "\n" + before.texts[0], verify.Genuine, genuineOnPaper, ""},
		{"first code of an old report", before.texts[0], verify.Unreadable, unreadable, "Part 2 of 2 is missing: read the other QR codes of the report too."},
		{"first code only", two.texts[0], verify.Unreadable, unreadable, "Part 2 of 2 is missing: read the other QR codes of the report too."},
		{"codes of two records", two.texts[0] + "\n" + other.texts[1], verify.Unreadable, unreadable, "The texts hold parts of two different service records.\nGive one record at a time"},
		{"two records", one.texts[0] + "\n" + two.texts[0] + "\n" + two.texts[1], verify.Unreadable, unreadable, "two different service records"},
		{"other address", stranger, verify.NotOriginal, "The code leads to another address than the record names, do not follow it; the record is " + owner, "leads to verify.port-ellery-slip.example, the record names verify.ellery-slip.example. Do not follow it."},
		{"no address", "hourseal:" + digits, verify.NotOriginal, "The code does not begin with the address that the record names; the record is " + owner, "has no address in it"},
		{"a path in the address", strings.Replace(one.texts[0], "/#", "/x/#", 1), verify.Unreadable, unreadable, ""},
		{"a port in the address", strings.Replace(one.texts[0], "/#", ":8443/#", 1), verify.Unreadable, unreadable, ""},
		{"http", strings.Replace(one.texts[0], "HTTPS", "HTTP", 1), verify.Unreadable, unreadable, "neither a PDF"},
		{"somebody's other code", "https://ellery-slip.example/menu", verify.Unreadable, unreadable, "not a hourseal QR text"},
		{"a format to come", strings.Replace(one.texts[0], "/#4", "/#6", 1), verify.Unreadable, unreadable, "a newer program may read it"},
		{"a label's code", "HTTPS://VERIFY.ELLERY-SLIP.EXAMPLE/#304551610629242096404", verify.Unreadable, unreadable, "This is the code of a label, which only names record 3f2a 91c0 77de 0b14 and does not hold it.\nGive the PDF of the report"},
		{"nothing", "", verify.Unreadable, unreadable, "The input is empty."},
		{"a letter", "Dear buyer, all is well.", verify.Unreadable, unreadable, "Give the PDF of the report, a photograph or scan of its QR code, the text of the code, or the .cose record file."},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := verify.Run([]byte(c.text), buyer(t), makePage)
			wants(t, got, c.verdict, c.sentence)
			if words := strings.Join(allWords(got), "\n"); !strings.Contains(strings.ToLower(words), strings.ToLower(c.detail)) {
				t.Errorf("%q is not said in\n%s", c.detail, words)
			}
			if got.Page != nil {
				t.Errorf("a text has a page: %+v", got.Page)
			}
		})
	}
	// A record of a yard without a page, under a code that has an address.
	bare := seal(t, recordtest.Shortest(), yardSeed)
	led := "https://verify.port-ellery-slip.example/#" + bare.texts[0][len("hourseal:"):]
	got := verify.Run([]byte(led), buyer(t), nil)
	if words := strings.Join(allWords(got), "\n"); got.Verdict != verify.NotOriginal || !strings.Contains(words, "the record names no address. Do not follow it.") {
		t.Errorf("%s\n%s", got.Verdict, words)
	}
}
