package main

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"hourseal/sign/qrtext"
	"hourseal/verify"
	"hourseal/verify/source"
)

// typingPause is longer than the page waits for the next key.
const typingPause = 700 * time.Millisecond

// testPartsByFragment: a record in two codes opens the page twice. The first time it
// says which part is missing, the second time it has both, in a window of its own too.
func testPartsByFragment(t *testing.T, b *browser) {
	first, second := fragment(b.data.parts[0]), fragment(b.data.parts[1])
	address := b.net.address()
	tab := b.open(t, address+second)
	tab.says(tab.answer(), b.expectTexts(tab, []string{second}, "", ""), verify.Unreadable)
	if said := tab.text("#status"); !strings.Contains(said, "Part 2 of 2 read, part 1 is missing") {
		t.Errorf("with the second part alone the status is %q", said)
	}
	if !tab.shows("#kept") {
		t.Error("that a part is kept is not said")
	}
	t.Run("forgotten", func(t *testing.T) {
		tab.click("#forget")
		tab.do(chromedp.Navigate("about:blank"))
		tab.visit(address + first)
		tab.says(tab.answer(), b.expectTexts(tab, []string{first}, "", ""), verify.Unreadable)
		if said := tab.text("#status"); !strings.Contains(said, "Part 1 of 2 read, part 2 is missing") {
			t.Errorf("after the part was forgotten, the status with the other is %q", said)
		}
	})
	t.Run("both", func(t *testing.T) {
		tab.do(chromedp.Navigate("about:blank"))
		tab.visit(address + second)
		tab.says(tab.answer(), b.expectTexts(tab, []string{second, first}, "", ""), verify.Genuine)
		if left := eval[int](tab, `localStorage.length`); left != 0 {
			t.Errorf("%d things are kept after the record was whole", left)
		}
	})
	t.Run("from a disk, one after the other", func(t *testing.T) {
		tab := b.open(t, "file://"+b.data.file+first)
		tab.answer()
		got := tab.answered(func() { tab.run("location.hash = " + quoted(second)) })
		tab.says(got, b.expectTexts(tab, []string{first, second}, "", ""), verify.Genuine)
	})
}

// testPartsByPicture: the parts may come in a picture each, at once or one after the
// other.
func testPartsByPicture(t *testing.T, b *browser) {
	tab := b.open(t, "file://"+b.data.file)
	found, err := source.FromTexts(source.KindImage, b.data.parts)
	want := b.expect(tab, nil, found, err, "", "")
	t.Run("one after the other", func(t *testing.T) {
		got := tab.answered(func() { tab.choose(b.data.photos[0]) })
		if said := tab.text("#status"); !strings.Contains(said, "Part 1 of 2 read, part 2 is missing") {
			t.Errorf("with one picture the status is %q, the answer %s", said, got.Sentence)
		}
		tab.says(tab.answered(func() { tab.choose(b.data.photos[1]) }), want, verify.Genuine)
	})
	t.Run("at once", func(t *testing.T) {
		tab := b.open(t, "file://"+b.data.file)
		tab.says(tab.answered(func() { tab.choose(b.data.photos[1], b.data.photos[0]) }), want, verify.Genuine)
	})
}

// testDamagedPart: a part that was damaged, and says all the same which part it is, spoils
// no good one, in whatever order they come and however.
func testDamagedPart(t *testing.T, b *browser) {
	first, second := b.data.parts[0], b.data.parts[1]
	damaged := otherDigit(t, first, second)
	want := func(t *tab) verify.Result { return b.expectTexts(t, []string{second, first}, "", "") }
	window := b.open(t, "file://"+b.data.file)
	window.reveal("#text")
	for name, texts := range map[string][]string{
		"between": {first, damaged, second},
		"first":   {damaged, second, first},
		"twice":   {damaged, first, damaged, second},
	} {
		t.Run("text, "+name, func(t *testing.T) {
			tab := window.under(t)
			tab.run("parts.clear()") // of the case before
			var got given
			for _, text := range texts {
				tab.fill("#text", text)
				got = tab.answered(func() { tab.click("#readtext") })
			}
			tab.says(got, want(tab), verify.Genuine)
		})
	}
	t.Run("opened", func(t *testing.T) {
		tab := b.open(t, b.net.address()+fragment(first))
		tab.answer()
		for _, text := range []string{damaged, second} {
			tab.do(chromedp.Navigate("about:blank"))
			tab.visit(b.net.address() + fragment(text))
		}
		tab.says(tab.answer(), b.expectTexts(tab, []string{fragment(second), fragment(first)}, "", ""), verify.Genuine)
		if left := eval[int](tab, `localStorage.length`); left != 0 {
			t.Errorf("%d things are kept after the record was whole", left)
		}
	})
	t.Run("files at once", func(t *testing.T) {
		tab := b.open(t, "file://"+b.data.file)
		dir := t.TempDir()
		var files []string
		for name, text := range map[string]string{"a.txt": first, "b.txt": damaged, "c.txt": second} {
			files = append(files, inFile(t, dir, name, []byte(text)))
		}
		slices.Sort(files)
		tab.says(tab.answered(func() { tab.choose(files...) }), want(tab), verify.Genuine)
		if from := tab.text("#from"); from != "(a.txt and c.txt)" {
			t.Errorf("the answer is said to be from %s", from)
		}
	})
}

// otherDigit is the first of two parts with a digit in its middle changed. It is read as
// that part, and the two make no record.
func otherDigit(t *testing.T, part, other string) string {
	t.Helper()
	at := len(part) / 2
	damaged := part[:at] + string('0'+(part[at]-'0'+1)%10) + part[at+1:]
	_, alone := qrtext.Decode([]string{damaged})
	_, both := qrtext.Decode([]string{damaged, other})
	if _, missing := errors.AsType[*qrtext.MissingPartsError](alone); !missing || both == nil {
		t.Fatalf("alone: %v; with the other: %v", alone, both)
	}
	return damaged
}

// testCamera: the camera sees one part and then the other, and stops when it has both.
func testCamera(t *testing.T, b *browser) {
	tab := b.open(t, "file://"+b.data.file)
	if !tab.shows("#camera") {
		t.Fatal("no camera is offered")
	}
	found, err := source.FromTexts(source.KindImage, b.data.parts)
	want := b.expect(tab, nil, found, err, "", "")
	tab.run(`window.statuses = []; new MutationObserver(() => statuses.push(document.getElementById("status").textContent))
		.observe(document.getElementById("status"), { childList: true, characterData: true, subtree: true })`)
	got := tab.answered(func() { tab.click("#camera") })
	tab.says(got, want, verify.Genuine)
	if said := strings.Join(eval[[]string](tab, "statuses"), "\n"); !strings.Contains(said, "of 2 read") {
		t.Errorf("on the way it said %q", said)
	}
	if tab.text("#camera") != "Read the code with the camera" || eval[bool](tab, `document.getElementById("camera").hasAttribute("aria-pressed")`) {
		t.Errorf("the button is %q, and says what it does by its words alone", tab.text("#camera"))
	}
	if eval[bool](tab, `document.getElementById("video").srcObject !== null`) || tab.shows("#viewfinder") {
		t.Error("the camera is not stopped")
	}
}
