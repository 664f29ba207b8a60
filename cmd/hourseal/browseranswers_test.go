package main

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render/plain"
	"hourseal/verify"
	"hourseal/verify/source"
)

// What the page answers is held to the library: the same sentence and the same
// sections, word for word. The verdict stands in the tests as well, so that the two
// do not agree on a fault.

// expect is the library's answer to a reader of the page, who typed a serial number
// and the meter's reading, or "".
func (b *browser) expect(t *tab, data []byte, found source.Found, err error, serial, hours string) verify.Result {
	t.Helper()
	on, dateErr := quantity.ParseDate(t.today())
	if dateErr != nil {
		t.Fatal(dateErr)
	}
	reader := verify.Reader{Trust: b.data.trust, Serial: serial, On: &on}
	if hours != "" {
		read, err := quantity.ParseHours(hours)
		if err != nil {
			t.Fatal(err)
		}
		reader.Hours = &read
	}
	return verify.RunFound(data, found, err, reader, noPageHere)
}

// noPageHere is what the page has for making a report again.
func noPageHere(*record.Record, []byte, []string, []byte) ([]byte, error) { return nil, pageTooSmall{} }

type pageTooSmall struct{}

func (pageTooSmall) Error() string {
	return "this web page is kept too small to make a report again and compare; the program hourseal does that"
}

func (pageTooSmall) Unwrap() error { return verify.ErrNotRendered }

// expectTexts is that of texts that were typed, or came in an address.
func (b *browser) expectTexts(t *tab, texts []string, serial, hours string) verify.Result {
	t.Helper()
	found, err := source.FromTexts(source.KindText, texts)
	return b.expect(t, nil, found, err, serial, hours)
}

// expectFile is that of a file.
func (b *browser) expectFile(t *tab, path string) verify.Result {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	found, err := source.Read(data)
	return b.expect(t, data, found, err, "", "")
}

// says holds what stands on the page to the library's answer.
func (t *tab) says(got given, want verify.Result, verdict verify.Verdict) {
	t.Helper()
	if want.Verdict != verdict {
		t.Errorf("the library has the verdict %s, want %s: %s", want.Verdict, verdict, want.Sentence())
	}
	if got.Sentence != want.Sentence() {
		t.Errorf("the page says\n     %s\nwant %s", got.Sentence, want.Sentence())
	}
	sections := want.Sections(verify.OnPage)
	if len(got.Sections) != len(sections) {
		t.Fatalf("%d sections on the page, want %d: %q", len(got.Sections), len(sections), got.Sections)
	}
	for i, section := range sections {
		if got.Sections[i].Heading != section.Heading || !slices.Equal(got.Sections[i].Lines, section.Lines) {
			t.Errorf("section %d on the page\n     %q\nwant %q", i+1, got.Sections[i], section)
		}
	}
	if has := got.Content != ""; has != (want.Signed != nil) {
		t.Errorf("what was signed is to be had: %t, want %t", has, want.Signed != nil)
	}
	if want.Signed != nil {
		var cells []string
		for _, block := range plain.Record(want.Signed) {
			cells = append(cells, slices.Concat(block.Rows...)...)
		}
		if !slices.Equal(got.Cells, cells) {
			t.Errorf("of what was signed the page has\n     %q\nwant %q", got.Cells, cells)
		}
	}
	if got.Open != verdict.ShowsContent() {
		t.Errorf("verdict %s: what was signed is open: %t", verdict, got.Open)
	}
}

// testFragments: what a code opened is answered at once, from a disk and from a web
// host, and what is wrong with it is said.
func testFragments(t *testing.T, b *browser) {
	disk, host := "file://"+b.data.file, b.net.loopback()
	for _, c := range []struct {
		name, address string
		text          string
		verdict       verify.Verdict
	}{
		{"genuine, disk", disk, b.data.issued[0], verify.Genuine},
		{"genuine, web host", host, b.data.issued[0], verify.Genuine},
		{"unknown signer", disk, b.data.unknown[0], verify.UnknownSigner},
		{"altered", host, b.data.altered[0], verify.Altered},
		{"rubbish", disk, "#12345", verify.Unreadable},
	} {
		t.Run(c.name, func(t *testing.T) {
			tab := b.open(t, c.address+fragment(c.text))
			tab.says(tab.answer(), b.expectTexts(tab, []string{fragment(c.text)}, "", ""), c.verdict)
		})
	}
	t.Run("none, and others in the same window", func(t *testing.T) {
		tab := b.open(t, disk)
		if tab.shows("#answer") || !tab.shows("#file") {
			t.Error("an answer without a question")
		}
		for text, verdict := range map[string]verify.Verdict{b.data.issued[0]: verify.Genuine, b.data.altered[0]: verify.Altered} {
			got := tab.answered(func() { tab.run("location.hash = " + quoted(fragment(text))) })
			tab.says(got, b.expectTexts(tab, []string{fragment(text)}, "", ""), verdict)
		}
	})
}

// testPrintedCode: a telephone opens the text of the code as it is printed, capitals
// and all, at the yard's own address.
func testPrintedCode(t *testing.T, b *browser) {
	text := b.data.issued[0]
	if !strings.HasPrefix(text, "HTTPS://"+strings.ToUpper(b.data.host)) {
		t.Fatalf("the code's text is %q", clipped(text))
	}
	tab := b.open(t, text)
	tab.says(tab.answer(), b.expectTexts(tab, []string{fragment(text)}, "", ""), verify.Genuine)
	if got := tab.text("#address"); got != b.data.host {
		t.Errorf("the page says that it was opened from %q, want %q", got, b.data.host)
	}
	if tab.shows("#elsewhere") {
		t.Errorf("at its own address the page warns: %s", tab.text("#elsewhere"))
	}
	elsewhere := b.open(t, b.net.loopback())
	if !elsewhere.shows("#elsewhere") || !strings.Contains(elsewhere.text("#elsewhere"), b.data.host) {
		t.Errorf("at another address the page says %q", elsewhere.text("#elsewhere"))
	}
}

// files are given, by choice or by dragging.
func (b *browser) files(t *testing.T, give func(tab *tab, path string), only ...string) {
	window := b.open(t, "file://"+b.data.file)
	rubbish := inFile(t, t.TempDir(), "rubbish.bin", []byte("\x00\x01\x02 nothing of ours \xff\xfe"))
	for _, c := range []struct {
		name, path string
		verdict    verify.Verdict
	}{
		{"pdf", b.data.report, verify.NotOriginal}, // no page is made again here
		{"photograph", b.data.photo, verify.Genuine},
		{"scan", b.data.scan, verify.NotOriginal},
		{"rubbish", rubbish, verify.Unreadable},
	} {
		if len(only) > 0 && !slices.Contains(only, c.name) {
			continue
		}
		t.Run(c.name, func(t *testing.T) {
			tab := window.under(t)
			got := tab.answered(func() { give(tab, c.path) })
			tab.says(got, b.expectFile(tab, c.path), c.verdict)
		})
	}
}

func testFiles(t *testing.T, b *browser) {
	b.files(t, func(tab *tab, path string) { tab.choose(path) })
	t.Run("several", func(t *testing.T) {
		tab := b.open(t, "file://"+b.data.file)
		tab.answered(func() { tab.choose(b.data.report, b.data.photo) })
		if got := eval[int](tab, `document.querySelectorAll("#others li").length`); got != 2 {
			t.Errorf("%d files are listed, want 2", got)
		}
	})
	t.Run("photograph that the browser decodes", func(t *testing.T) {
		tab := b.open(t, "file://"+b.data.file)
		var pixels int
		got := tab.answered(func() { pixels = tab.chooseWebP(b.data.photo, 24e6) })
		tab.says(got, b.expectFile(tab, b.data.photo), verify.Genuine)
		drawn := eval[int](tab, "window.drawnPixels")
		t.Logf("%d pixels, drawn at %d", pixels, drawn)
		const mostOnSafari = 16_777_216
		if pixels <= mostOnSafari || drawn > mostOnSafari || drawn < mostOnSafari*99/100 {
			t.Errorf("of %d pixels %d were read", pixels, drawn)
		}
	})
	t.Run("some of which cannot be read", func(t *testing.T) {
		tab := b.open(t, "file://"+b.data.file)
		got := tab.answered(func() { tab.chooseUnreadable(b.data.report) })
		if got.Sentence != "This cannot be read as a service record." {
			t.Errorf("the worst of them is %s", got.Sentence)
		}
		others := eval[[]string](tab, `[...document.querySelectorAll("#others li")].map((e) => e.textContent)`)
		want := []string{"long.jpg " + got.Sentence, "gone.jpg " + got.Sentence, "report.pdf " + b.expectFile(tab, b.data.report).Sentence()}
		if !slices.Equal(others, want) {
			t.Errorf("listed are\n     %q\nwant %q", others, want)
		}
		reasons := ""
		for i := range others {
			tab.click(fmt.Sprintf("#others li:nth-child(%d) button", i+1))
			reasons += tab.text("#sections")
		}
		for _, words := range []string{"The file is 34603008 bytes long, the limit is 33554432.", "The file could not be read: no such file any more."} {
			if !strings.Contains(reasons, words) {
				t.Errorf("no answer says %q: %s", words, reasons)
			}
		}
	})
}

// chooseWebP chooses a photograph as a WebP, which the program does not decode, of about so
// many pixels. It says how many, and notes in the page how many the program gets.
func (t *tab) chooseWebP(path string, pixels float64) int {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return eval[int](t, fmt.Sprintf(`(async () => {
		const photo = await createImageBitmap(new Blob([%s]));
		const scale = Math.sqrt(%f / (photo.width * photo.height));
		const canvas = new OffscreenCanvas(photo.width * scale, photo.height * scale);
		canvas.getContext("2d").drawImage(photo, 0, 0, canvas.width, canvas.height);
		const webp = await canvas.convertToBlob({ type: "image/webp", quality: 0.8 });
		const read = functions.readPixels;
		functions.readPixels = (rgba, width, height, thorough) => read(rgba, width, height, ((window.drawnPixels = width * height), thorough));
		openFiles([new File([webp], "photo.webp")]);
		return canvas.width * canvas.height;
	})()`, bytesIn(data), pixels))
}

// chooseUnreadable chooses a file of 33 MiB, one that goes away before it is read, and a
// report.
func (t *tab) chooseUnreadable(report string) {
	t.Helper()
	data, err := os.ReadFile(report)
	if err != nil {
		t.Fatal(err)
	}
	t.run(fmt.Sprintf(`
		const gone = new File(["?"], "gone.jpg");
		gone.arrayBuffer = () => Promise.reject(new Error("no such file any more"));
		openFiles([new File([new Uint8Array(33 * 1024 * 1024)], "long.jpg"), gone, new File([%s], "report.pdf")]);
	`, bytesIn(data)))
}

func testDropped(t *testing.T, b *browser) {
	b.files(t, func(tab *tab, path string) { tab.drop(path) }, "pdf", "photograph")
}

// testTyped: the machine that stands before the reader is compared as it is typed.
func testTyped(t *testing.T, b *browser) {
	tab := b.open(t, "file://"+b.data.file+fragment(b.data.issued[0]))
	tab.answer()
	for _, c := range []struct {
		serial, hours string
		verdict       verify.Verdict
	}{
		{"0045120", "", verify.Genuine},
		{"0045121", "", verify.OtherMachine},
		{"0045120", "900", verify.Genuine},
		{"0045120", "812.6", verify.Genuine},
		{"0045120", "500", verify.OtherMachine},
		{"", "", verify.Genuine},
	} {
		t.Run(fmt.Sprintf("%q %q", c.serial, c.hours), func(t *testing.T) {
			tab := tab.under(t)
			tab.fill("#serial", c.serial)
			tab.fill("#hours", c.hours)
			tab.do(chromedp.Sleep(typingPause))
			tab.says(tab.answer(), b.expectTexts(tab, []string{fragment(b.data.issued[0])}, c.serial, c.hours), c.verdict)
		})
	}
	t.Run("no number", func(t *testing.T) {
		tab := tab.under(t)
		tab.fill("#hours", "812,7")
		tab.wait(`document.getElementById("hours").getAttribute("aria-invalid") === "true"`)
		if !strings.Contains(tab.text("#hours-fault"), "Not compared") {
			t.Errorf("of hours that are no number it says %q", tab.text("#hours-fault"))
		}
		if !eval[bool](tab, `document.getElementById("hours-fault").getAttribute("role") === "alert"`) {
			t.Error("nobody hears of the fault")
		}
		tab.run(`window.told = 0; new MutationObserver(() => told++).observe(document.getElementById("hours-fault"), { childList: true, characterData: true, subtree: true })`)
		for _, serial := range []string{"0", "00", "004"} {
			tab.fill("#serial", serial)
			tab.do(chromedp.Sleep(typingPause))
		}
		if said := tab.text("#answered"); !strings.Contains(said, "serial number 004") {
			t.Errorf("the answer is still one %s", said)
		}
		if told := eval[int](tab, "told"); told != 0 {
			t.Errorf("with answers about something else the same fault is told %d times more", told)
		}
	})
}

func testPastedText(t *testing.T, b *browser) {
	window := b.open(t, "file://"+b.data.file)
	window.reveal("#text")
	for name, c := range map[string]struct {
		texts   []string
		verdict verify.Verdict
	}{
		"one":         {b.data.issued, verify.Genuine},
		"two parts":   {b.data.parts, verify.Genuine},
		"one of two":  {b.data.parts[1:], verify.Unreadable},
		"digits only": {[]string{fragment(b.data.issued[0])}, verify.Genuine},
		"a letter":    {[]string{"Dear buyer, all is well."}, verify.Unreadable},
	} {
		t.Run(name, func(t *testing.T) {
			tab := window.under(t)
			tab.run("parts.clear()") // of the case before
			tab.fill("#text", strings.Join(c.texts, "\n"))
			got := tab.answered(func() { tab.click("#readtext") })
			tab.says(got, b.expectTexts(tab, c.texts, "", ""), c.verdict)
		})
	}
}
