package main

import (
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

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
	if eval[bool](tab, `document.getElementById("video").srcObject !== null`) || tab.shows("#viewfinder") {
		t.Error("the camera is not stopped")
	}
}
