package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"hourseal/record/recordtest/outside"
	"hourseal/render/webpage"
	"hourseal/verify"
)

// view is how the page is looked at.
type view struct {
	scheme string // light or dark
	width  int64  // CSS pixels
}

func (v view) String() string { return fmt.Sprintf("%s-%d", v.scheme, v.width) }

// views are a telephone and a large screen, by day and by night.
var views = []view{{"light", 360}, {"dark", 360}, {"light", 1600}, {"dark", 1600}}

func (t *tab) look(v view) {
	t.Helper()
	t.do(chromedp.EmulateViewport(v.width, 900))
	if _, err := chromedp.Call(t.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: v.scheme}},
	}); err != nil {
		t.Fatal(err)
	}
}

// stand is a state of the page that is worth looking at.
type stand struct {
	name string
	make func(b *browser, t *testing.T) *tab
}

// opened is the stand after a fragment.
func opened(name string, text func(*pageData) string) stand {
	return stand{name: name, make: func(b *browser, t *testing.T) *tab {
		tab := b.open(t, b.net.address()+fragment(text(b.data)))
		tab.answer()
		return tab
	}}
}

var stands = []stand{
	{name: "empty", make: func(b *browser, t *testing.T) *tab { return b.open(t, b.net.address()) }},
	opened("genuine", func(d *pageData) string { return d.issued[0] }),
	opened("altered", func(d *pageData) string { return d.altered[0] }),
	{name: "unknown", make: func(b *browser, t *testing.T) *tab {
		tab := b.open(t, b.net.address()+fragment(b.data.unknown[0]))
		tab.answer()
		tab.run(`for (const details of document.querySelectorAll("details")) details.open = true`)
		return tab
	}},
	{name: "other-machine", make: func(b *browser, t *testing.T) *tab {
		tab := b.open(t, b.net.address()+fragment(b.data.issued[0]))
		tab.answer()
		tab.answered(func() { tab.fill("#serial", "0045121") })
		return tab
	}},
	{name: "part-missing", make: func(b *browser, t *testing.T) *tab {
		tab := b.open(t, b.net.loopback()+fragment(b.data.parts[1]))
		tab.answer()
		return tab
	}},
	{name: "several-files", make: func(b *browser, t *testing.T) *tab {
		tab := b.open(t, b.net.address())
		tab.answered(func() { tab.choose(b.data.report, b.data.photo) })
		return tab
	}},
}

// finding is one of axe's.
type finding struct {
	Rule, Impact, Help string
	At                 []string
}

// testViews looks at every stand of the page in every view.
func testViews(t *testing.T, b *browser) {
	for _, s := range stands {
		t.Run(s.name, func(t *testing.T) {
			tab := s.make(b, t)
			t.Run("reflow", func(t *testing.T) { tab.under(t).reflows() })
			t.Run("axe", func(t *testing.T) { tab.under(t).axe() })
			t.Run("pictures", func(t *testing.T) { tab.under(t).pictures(s.name) })
		})
	}
}

const axeVariable = "HOURSEAL_AXE"

// axe holds the page to axe-core, which is to find nothing serious or critical.
func (t *tab) axe() {
	t.Helper()
	script, err := os.ReadFile(os.Getenv(axeVariable))
	if err != nil {
		outside.Missing(t.T, "axe-core, its axe.min.js named in "+axeVariable+",")
	}
	t.run(string(script) + ";")
	for _, v := range views {
		t.look(v)
		found := eval[struct {
			Passed     []string
			Violations []finding
		}](t, `axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] })
			.then(({ passes, violations }) => ({ Passed: passes.map((p) => p.id), Violations: violations.map((v) =>
				({ Rule: v.id, Impact: v.impact, Help: v.help, At: v.nodes.map((n) => n.target.join(" ") + ": " + n.failureSummary) })) }))`)
		for _, f := range found.Violations {
			say := t.Logf
			if f.Impact == "serious" || f.Impact == "critical" {
				say = t.Errorf
			}
			say("%s: %s, %s: %s\n%s", v, f.Impact, f.Rule, f.Help, strings.Join(f.At, "\n"))
		}
		for _, rule := range []string{"color-contrast", "label", "target-size"} { // so that axe did look
			if !slices.Contains(found.Passed, rule) {
				t.Errorf("%s: axe did not find %s in order: %q", v, rule, found.Passed)
			}
		}
	}
}

// reflows: nothing has to be scrolled sideways, WCAG 2.2 success criterion 1.4.10,
// whose width is 320 CSS pixels; from 360 on not even a table in its own frame.
func (t *tab) reflows() {
	t.Helper()
	for _, width := range []int64{320, 360, 1600} {
		t.look(view{"light", width})
		if wide := eval[int64](t, `document.documentElement.scrollWidth`); wide > width {
			t.Errorf("%d pixels wide on a screen of %d: %q", wide, width, eval[[]string](t, `(() => {`+described+`
				return [...document.querySelectorAll("body *")].filter((e) => e.getBoundingClientRect().right > innerWidth + 1).map(name) })()`))
		}
		scrolled := eval[[]string](t, `(() => {`+described+`
			return [...document.querySelectorAll("body *")].filter((e) => e.tagName !== "TEXTAREA" && e.tagName !== "INPUT" && e.checkVisibility()
				&& e.scrollWidth > e.clientWidth + 1 && ["auto", "scroll"].includes(getComputedStyle(e).overflowX)).map(name) })()`)
		if len(scrolled) > 0 && width >= 360 {
			t.Errorf("at %d: scrolled sideways inside: %q", width, scrolled)
		}
	}
}

// pictures are for people to look at.
func (t *tab) pictures(name string) {
	t.Helper()
	if os.Getenv(picturesVariable) == "" {
		t.Skip("no folder for pictures is named in " + picturesVariable)
	}
	for _, v := range views {
		t.look(v)
		picture, err := chromedp.Run(t.ctx, chromedp.FullScreenshot(100))
		if err != nil {
			t.Fatal(err)
		}
		keep(t.T, fmt.Sprintf("%s-%s.png", name, v), picture)
	}
}

// testPrint: on paper there is the answer with the record, and no form.
func testPrint(t *testing.T, b *browser) {
	tab := b.open(t, b.net.address()+fragment(b.data.issued[0]))
	tab.answer()
	tab.run(`document.querySelector("#record details").open = false`)
	pdf, err := chromedp.Run(tab.ctx, chromedp.PrintToPDF())
	if err != nil {
		t.Fatal(err)
	}
	file := inFile(t, t.TempDir(), "printed.pdf", pdf)
	keep(t, "printed.pdf", pdf)
	text := oneLine(outside.Run(t, "pdftotext", "-layout", file, "-"))
	want := b.expectTexts(tab, []string{fragment(b.data.issued[0])}, "", "")
	for _, words := range []string{want.Sentence(), "Ellery Slip Boatyard's page", b.data.host, "812.6", "0045120"} {
		if !strings.Contains(text, oneLine(words)) {
			t.Errorf("on paper there is no %q", words)
		}
	}
	for _, section := range want.Sections(verify.OnPage) {
		if !strings.Contains(text, section.Heading) {
			t.Errorf("on paper there is no section %q", section.Heading)
		}
	}
	for _, words := range []string{"Paste the text", "Read the code with the camera", "Add a key", "Drop files here"} {
		if strings.Contains(text, words) {
			t.Errorf("on paper there is the form: %q", words)
		}
	}
}

// The bar of the page, and how often it is tried: a busy machine only makes it slower.
const (
	maxTimeToAnswer = 1500 * time.Millisecond
	triesForTime    = 5
	mostForTime     = 20 // while none was quick enough
)

// testTime: from asking for the page to the verdict in it, the best of several, by the
// browser's own clock (High Resolution Time, time origin). Waiting for it from outside
// would count the asking.
func testTime(t *testing.T, b *browser) {
	if len(b.data.page) >= webpage.MaxBytes || webpage.MaxBytes > 3_000_000 {
		t.Errorf("the page is %d bytes long, want under 3 MB", len(b.data.page))
	}
	t.Logf("the page: %d bytes", len(b.data.page))
	for name, address := range map[string]string{"file": "file://" + b.data.file, "web host": b.net.address()} {
		var took []time.Duration
		for len(took) < triesForTime || slices.Min(took) > maxTimeToAnswer && len(took) < mostForTime {
			tab := b.blank(t)
			tab.visit(address + fragment(b.data.issued[0]))
			time.Sleep(2 * maxTimeToAnswer) // to look on would slow it down
			tab.answer()
			at := eval[float64](tab, `performance.getEntriesByName("answered").at(-1).startTime`)
			took = append(took, time.Duration(at*float64(time.Millisecond)).Round(time.Millisecond))
		}
		t.Logf("from opening it to the answer, %s: %v", name, took)
		if best := slices.Min(took); best > maxTimeToAnswer {
			t.Errorf("%s: %v at best, want %v", name, best, maxTimeToAnswer)
		}
	}
}

const picturesVariable = "HOURSEAL_SCREENSHOTS"

// keep puts something to be looked at into the folder for it, where there is one.
func keep(t *testing.T, name string, data []byte) {
	t.Helper()
	if dir := os.Getenv(picturesVariable); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
