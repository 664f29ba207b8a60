package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"hourseal/verify"
)

// The page without a mouse, and for those who do not see it: WCAG 2.2, success
// criteria 2.1.1 keyboard, 2.1.2 no keyboard trap, 2.4.3 focus order, 2.4.7 focus
// visible, 4.1.3 status messages, 1.3.1 info and relationships.

// focused is what has the keyboard.
type focused struct {
	Name    string // id, or the text of what has none
	Visible bool   // an outline is drawn around it
}

// described gives an element a name.
const described = `const name = (e) => e === document.body ? "" : e.id || e.tagName.toLowerCase() + " " + e.textContent.trim().slice(0, 40);`

func (t *tab) focused() focused {
	t.Helper()
	return eval[focused](t, `(() => {`+described+`
		const e = document.activeElement;
		const s = getComputedStyle(e);
		return { Name: name(e), Visible: s.outlineStyle !== "none" && parseFloat(s.outlineWidth) >= 1 };
	})()`)
}

// controls are the elements that the keyboard has to reach, in the order of the
// document.
func (t *tab) controls() []string {
	t.Helper()
	return eval[[]string](t, `(() => {`+described+`
		return [...document.querySelectorAll("a[href], button, input, select, textarea, summary, audio[controls], video[controls], [contenteditable], [tabindex]")]
			.filter((e) => e.checkVisibility() && !e.disabled && e.tabIndex >= 0).map(name);
	})()`)
}

func (t *tab) press(key string, options ...chromedp.KeyOption) {
	t.Helper()
	t.do(chromedp.KeyEvent(key, options...))
}

// tabbed presses Tab until the focus has left the page, and gives what had it.
func (t *tab) tabbed(options ...chromedp.KeyOption) []string {
	t.Helper()
	var order []string
	for range 100 {
		t.press(kb.Tab, options...)
		at := t.focused()
		if at.Name == "" {
			return order
		}
		if !at.Visible {
			t.Errorf("nothing shows that %s has the focus", at.Name)
		}
		order = append(order, at.Name)
	}
	t.Fatalf("a hundred times Tab do not leave the page: %q", order)
	return nil
}

// tabTo presses Tab until an element has the focus.
func (t *tab) tabTo(name string) {
	t.Helper()
	var passed []string
	for range 60 {
		t.press(kb.Tab)
		at := t.focused().Name
		if at == name || strings.HasPrefix(at, name) {
			return
		}
		passed = append(passed, at)
	}
	t.Fatalf("Tab does not come to %s, only to %q", name, passed)
}

// testKeyboard: Tab comes to everything in order and out again, Enter and Space work.
func testKeyboard(t *testing.T, b *browser) {
	window := b.open(t, "file://"+b.data.file+fragment(b.data.issued[0]))
	window.answer()
	t.Run("order", func(t *testing.T) {
		tab := window.under(t)
		tab.run(`for (const details of document.querySelectorAll("details")) details.open = true; document.getElementById("skip").focus()`)
		want := tab.controls()
		for _, id := range []string{"skip", "serial", "hours", "file", "camera", "text", "readtext", "keyline", "keyname", "addkey"} {
			if !slices.Contains(want, id) {
				t.Errorf("%s is not to be reached", id)
			}
		}
		got := append([]string{"skip"}, tab.tabbed()...)
		if !slices.Equal(got, want) {
			t.Errorf("Tab goes through\n     %q\nwant %q", got, want)
		}
	})
	t.Run("text", func(t *testing.T) {
		tab := b.open(t, "file://"+b.data.file)
		tab.tabTo("summary Paste")
		tab.press(kb.Enter)
		tab.tabTo("text")
		tab.insert(b.data.issued[0])
		tab.tabTo("readtext")
		got := tab.answered(func() { tab.press(" ") })
		tab.says(got, b.expectTexts(tab, b.data.issued, "", ""), verify.Genuine)
		tab.tabTo("summary What the record says")
		tab.press(" ")
		if tab.answer().Open {
			t.Error("the space bar does not fold the record away")
		}
		back := tab.focused().Name
		tab.press(kb.Tab, chromedp.KeyModifiers(chromedp.ModifierShift))
		if at := tab.focused().Name; at == back || at == "" {
			t.Errorf("backwards from %q Tab comes to %q", back, at)
		}
	})
	t.Run("key", func(t *testing.T) {
		tab := b.open(t, "file://"+b.data.file+fragment(b.data.unknown[0]))
		tab.answer()
		tab.tabTo("summary Add a key")
		tab.press(kb.Enter)
		tab.tabTo("keyline")
		tab.insert(b.data.stranger.OpenSSHLine(""))
		tab.tabTo("keyname")
		tab.insert("South Quay Marine")
		tab.tabTo("addkey")
		got := tab.answered(func() { tab.press(kb.Enter) })
		if !strings.Contains(got.Sentence, "signed by South Quay Marine") {
			t.Errorf("with the key added the page says %s", got.Sentence)
		}
		if said := tab.text("#status"); !strings.Contains(said, "South Quay Marine") {
			t.Errorf("the new answer is not announced, the status is %q", said)
		}
	})
	t.Run("skip", func(t *testing.T) {
		tab := window.under(t)
		tab.run(`document.getElementById("skip").focus()`)
		tab.press(kb.Enter)
		if at := tab.focused().Name; at != "verdict" {
			t.Errorf("to the answer: the focus is on %q", at)
		}
		if got := eval[string](tab, "location.hash"); got != fragment(b.data.issued[0]) {
			t.Error("to skip to the answer took the record out of the address")
		}
	})
}

// insert types a text where the focus is.
func (t *tab) insert(text string) {
	t.Helper()
	if _, err := chromedp.Call(t.ctx, input.InsertText, input.InsertTextParams{Text: text}); err != nil {
		t.Fatal(err)
	}
}

// testFocus: an answer takes the focus to its first sentence, and the page is one
// that a screen reader finds its way through.
func testFocus(t *testing.T, b *browser) {
	tab := b.open(t, "file://"+b.data.file+fragment(b.data.issued[0]))
	tab.answer()
	if at := tab.focused().Name; at != "verdict" {
		t.Errorf("after the answer the focus is on %q, want its sentence", at)
	}
	for what, holds := range map[string]string{
		"the language":              `document.documentElement.lang === "en-GB"`,
		"a title":                   `document.title.includes("Ellery Slip Boatyard")`,
		"one main":                  `document.querySelectorAll("main").length === 1`,
		"one first heading":         `document.querySelectorAll("h1").length === 1`,
		"a status":                  `document.getElementById("status").getAttribute("role") === "status"`,
		"the answer is a region":    `document.getElementById("answer").getAttribute("aria-labelledby") === "verdict"`,
		"the sentence is a heading": `document.getElementById("verdict").tagName === "H2"`,
		"nothing of the record above the verdict": `[...document.getElementById("answer").children].slice(0, 2).map((e) => e.id).join() === "whence,verdict"
			&& document.getElementById("whence").textContent.startsWith("Answered by ")`,
	} {
		if !eval[bool](tab, holds) {
			t.Errorf("the page has not: %s", what)
		}
	}
	levels := eval[[]int](tab, `[...document.querySelectorAll("h1, h2, h3, h4")].filter((h) => h.checkVisibility()).map((h) => Number(h.tagName[1]))`)
	for i := 1; i < len(levels); i++ {
		if levels[i] > levels[i-1]+1 {
			t.Errorf("the headings' levels skip one: %v", levels)
			break
		}
	}
	const target = 24 // CSS pixels, WCAG 2.2 success criterion 2.5.8
	small := eval[[]string](tab, fmt.Sprintf(`(() => {`+described+`
		return [...document.querySelectorAll("button, input, textarea, summary")].filter((e) => e.checkVisibility())
			.filter((e) => { const r = e.getBoundingClientRect(); return r.width < %d || r.height < %d }).map(name);
	})()`, target, target))
	if len(small) > 0 {
		t.Errorf("smaller than %d pixels: %q", target, small)
	}
}
