package verify_test

import (
	"bytes"
	"compress/flate"
	"compress/zlib"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"
	"hourseal/render"
	"hourseal/sign"
	"hourseal/sign/qrtext"
	"hourseal/verify"
	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

// otherHours shows 412.6 h where the page has 812.6 h.
func otherHours(t testing.TB) sourcetest.Edit {
	return func(content []byte) []byte {
		changed := bytes.ReplaceAll(content, sourcetest.Text16("812.6"), sourcetest.Text16("412.6"))
		if bytes.Equal(changed, content) {
			t.Fatal("the page does not show 812.6")
		}
		return changed
	}
}

func editedPage(t testing.TB, sealed issued) []byte {
	return must[[]byte](t)(sourcetest.EditPage(sealed.pdf(t), 1, otherHours(t)))
}

// withHost are the example's texts, leading to another host.
func withHost(t testing.TB, sealed issued, host string) []string {
	return must[[]string](t)(qrtext.Encode(sealed.envelope, host))
}

func lines(texts []string) []byte { return []byte(strings.Join(texts, "\n") + "\n") }

// What other programs and forgers do to a report. None of it passes, and each
// gets the sentence that a reader can act on.
func TestForgedReports(t *testing.T) {
	sealed, other := example(t), otherExample(t)
	pdf := sealed.pdf(t)
	edit := must[[]byte](t)
	flipped := bytes.Clone(sealed.envelope)
	flipped[len(flipped)/2] ^= 1
	strange := withHost(t, sealed, "verify.port-ellery-slip.example")
	statement := must[[]byte](t)(sign.Seal(sign.KeyStatementV1, []byte("key"), keyOf(t, strangerSeed)))
	for _, c := range []struct {
		name     string
		pdf      []byte
		verdict  verify.Verdict
		sentence string
		detail   string // a piece of what is said of the page
	}{
		{"as issued", pdf, verify.Genuine, genuineWithPage, "byte for byte"},
		{"page shows other hours", editedPage(t, sealed), verify.NotOriginal, pageNotOriginal, `Page 1 shows "412.6`},
		{"update shows other hours", edit(sourcetest.AppendUpdate(pdf, 1, otherHours(t))), verify.NotOriginal, pageNotOriginal, "end of the file"},
		{"bytes before", slices.Concat([]byte("x\n"), pdf), verify.NotOriginal, pageNotOriginal, "does not start with the header"},
		{"white space before", slices.Concat([]byte("\n"), pdf), verify.NotOriginal, pageNotOriginal, "does not start with the header"},
		{"bytes after", slices.Concat(pdf, []byte("\n")), verify.NotOriginal, pageNotOriginal, "end of the file"},
		{"twice", slices.Concat(pdf, pdf), verify.NotOriginal, pageNotOriginal, "end of the file"},
		{"another's record.cose", edit(sourcetest.ReplaceAttachment(pdf, "record.cose", other.envelope)), verify.NotOriginal, pageNotOriginal, "record.txt holds another record"},
		{"another's record.txt", edit(sourcetest.ReplaceAttachment(pdf, "record.txt", lines(other.texts))), verify.NotOriginal, pageNotOriginal, "record.txt holds another record"},
		{"another's record and text", bothReplaced(t, pdf, other), verify.NotOriginal, pageNotOriginal, "Page 1 shows"},
		{"altered record.cose", edit(sourcetest.ReplaceAttachment(pdf, "record.cose", flipped)), verify.Altered, alteredSentence, "not the ones that were signed"},
		{"altered record and text", bothReplaced(t, pdf, issued{envelope: flipped, texts: must[[]string](t)(qrtext.Encode(flipped, sealed.record.PageHost))}), verify.Altered, alteredSentence, "not the ones that were signed"},
		{"a further attachment", edit(sourcetest.AddAttachment(pdf, "invoice.pdf", []byte("pay here"))), verify.NotOriginal, pageNotOriginal, "an attachment that is none of"},
		{"a hidden attachment", edit(sourcetest.HideAttachment(pdf, "invoice.pdf", []byte("pay here"))), verify.NotOriginal, pageNotOriginal, "not in its list of attachments"},
		{"a second record attached", edit(sourcetest.AddAttachment(pdf, "second.cose", other.envelope)), verify.Unreadable, unreadable, "two different service records"},
		{"an attachment renamed", edit(sourcetest.RenameAttachment(pdf, "record.txt", "record.url")), verify.NotOriginal, pageNotOriginal, "an attachment that is none of"},
		{"keys.cose of junk", edit(sourcetest.AddAttachment(pdf, "keys.cose", []byte("junk"))), verify.NotOriginal, pageNotCompared, "key statements"},
		{"page made with strange keys.cose", must[[]byte](t)(render.Report(sealed.record, sealed.envelope, sealed.texts, statement)), verify.NotOriginal, pageNotCompared, "key statements"},
		{"another host in record.txt", edit(sourcetest.ReplaceAttachment(pdf, "record.txt", lines(strange))), verify.NotOriginal, otherAddress, "leads to verify.port-ellery-slip.example"},
		{"page made with another host", must[[]byte](t)(render.Report(sealed.record, sealed.envelope, strange, nil)), verify.NotOriginal, otherAddress, "leads to verify.port-ellery-slip.example"},
		{"page made without a host", must[[]byte](t)(render.Report(sealed.record, sealed.envelope, withHost(t, sealed, ""), nil)), verify.NotOriginal, noAddress, "has no address in it"},
		{"record.txt twice over", edit(sourcetest.ReplaceAttachment(pdf, "record.txt", lines(append(slices.Clone(sealed.texts), sealed.texts...)))), verify.NotOriginal, pageNotOriginal, "each once"},
		{"record.txt without its last line end", edit(sourcetest.ReplaceAttachment(pdf, "record.txt", bytes.TrimSuffix(lines(sealed.texts), []byte("\n")))), verify.NotOriginal, pageNotOriginal, "record.txt"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := verify.Run(c.pdf, buyer(t), makePage)
			wants(t, got, c.verdict, c.sentence)
			if words := strings.Join(allWords(got), "\n"); !strings.Contains(words, c.detail) {
				t.Errorf("%q is not said in\n%s", c.detail, words)
			}
			if code := got.Verdict.ExitCode(); c.verdict != verify.Genuine && code != 6 && code != 3 && code != 2 {
				t.Errorf("exit code %d", code)
			}
			if got.Page != nil && got.Page.Proved() != (got.Verdict == verify.Genuine) {
				t.Errorf("page %s under verdict %s", got.Page.Result, got.Verdict)
			}
		})
	}
}

func bothReplaced(t testing.TB, pdf []byte, other issued) []byte {
	t.Helper()
	pdf = must[[]byte](t)(sourcetest.ReplaceAttachment(pdf, "record.cose", other.envelope))
	return must[[]byte](t)(sourcetest.ReplaceAttachment(pdf, "record.txt", lines(other.texts)))
}

// Another Go release deflates streams differently: the page still passes.
func TestDeflatedAtAnotherLevel(t *testing.T) {
	pdf := example(t).pdf(t)
	for level := zlib.HuffmanOnly; level <= zlib.BestCompression; level++ {
		again := must[[]byte](t)(sourcetest.Redeflate(pdf, level))
		want := source.PageRedeflated
		if bytes.Equal(again, pdf) {
			want = source.PageOriginal
		}
		got := verify.Run(again, buyer(t), makePage)
		wants(t, got, verify.Genuine, genuineWithPage)
		if got.Page.Result != want {
			t.Errorf("level %d: page %s, want %s", level, got.Page.Result, want)
		}
	}
}

// Another Go release makes another QR text of the same record: the text that
// came with the file is the one that the page is made with.
func TestTextMadeAtAnotherLevel(t *testing.T) {
	sealed := example(t)
	for level := flate.HuffmanOnly; level <= flate.BestCompression; level++ {
		texts := must[[]string](t)(qrtext.EncodeAt(level, sealed.envelope, sealed.record.PageHost))
		same := slices.Equal(texts, sealed.texts)
		if level == flate.BestSpeed && same {
			t.Fatal("the texts are the same: the test shows nothing")
		}
		pdf := must[[]byte](t)(render.Report(sealed.record, sealed.envelope, texts, nil))
		got := verify.Run(pdf, buyer(t), makePage)
		wants(t, got, verify.Genuine, genuineWithPage)
		if got.Page.Result != source.PageOriginal {
			t.Errorf("level %d: page %s", level, got.Page.Result)
		}
		got = verify.Run(must[[]byte](t)(sourcetest.Redeflate(pdf, zlib.BestCompression)), buyer(t), makePage)
		if got.Verdict != verify.Genuine || got.Page.Result != source.PageRedeflated {
			t.Errorf("level %d, deflated again: %s, page %+v", level, got.Verdict, got.Page)
		}
	}
}

// A file that another program has saved is no longer the one that was issued,
// however it looks.
func TestSavedByAnotherProgram(t *testing.T) {
	for name, args := range map[string][]string{
		"saved":            nil,
		"object streams":   {"--object-streams=generate"},
		"deflated anew":    {"--recompress-flate", "--compression-level=9"},
		"for the web":      {"--linearize"},
		"without deflate":  {"--stream-data=uncompress"},
		"for a text pager": {"--qdf"},
	} {
		t.Run(name, func(t *testing.T) {
			in := onDisk(t, "in.pdf", example(t).pdf(t))
			out := filepath.Join(t.TempDir(), "out.pdf")
			outside.Run(t, "qpdf", append(args, in, out)...)
			wants(t, verify.Run(must[[]byte](t)(os.ReadFile(out)), buyer(t), makePage), verify.NotOriginal, pageNotOriginal)
		})
	}
}

// A page that cannot be made here is not called altered, and does not pass.
func TestPageThatCannotBeMade(t *testing.T) {
	later := *example(t).record
	later.Renderer = render.RendererID + 1
	sealed := seal(t, &later, yardSeed)
	ours := *example(t).record
	// The yard's newer program would draw this page; ours cannot say.
	page := must[[]byte](t)(render.Report(&ours, example(t).envelope, example(t).texts, nil))
	pdf := bothReplaced(t, page, sealed)
	got := verify.Run(pdf, buyer(t), makePage)
	wants(t, got, verify.NotOriginal, pageNotCompared)
	if got.Page.Result != verify.PageNotCompared {
		t.Errorf("page %s", got.Page.Result)
	}
	for name, render := range map[string]verify.RenderFunc{"none": nil, "fails": noPage} {
		if got := verify.Run(example(t).pdf(t), buyer(t), render); got.Verdict != verify.NotOriginal || got.Page.Result != verify.PageNotCompared {
			t.Errorf("render function %s: %s, %+v", name, got.Verdict, got.Page)
		}
	}
}
