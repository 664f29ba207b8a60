package main

import (
	"context"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// tab is one window of the browser.
type tab struct {
	*testing.T
	ctx context.Context
	log *windowLog
}

// windowLog is what the browser tells of a window.
type windowLog struct {
	lock     sync.Mutex
	requests []string // that the window made
	faults   []string // errors of the page's script that nobody caught, and what it logged as an error
}

// open opens the page in a window that knows nothing of others, and waits until it
// takes something.
func (b *browser) open(t *testing.T, address string) *tab {
	t.Helper()
	tab := b.blank(t)
	tab.visit(address)
	return tab
}

// blank is a window without a page.
func (b *browser) blank(t *testing.T) *tab {
	t.Helper()
	tab := &tab{T: t, log: &windowLog{}}
	all, cancel := chromedp.NewContext(b.ctx, chromedp.WithNewBrowserContext(), chromedp.WithListener(tab.log.listen))
	t.Cleanup(cancel)
	if err := chromedp.Do(all); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(all, network.Enable, network.EnableParams{}); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(all, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true}); err != nil {
		t.Fatal(err)
	}
	limited, stop := context.WithTimeout(all, 3*patience)
	t.Cleanup(stop)
	tab.ctx = limited
	t.Cleanup(func() {
		if faults := tab.log.told(&tab.log.faults); len(faults) > 0 {
			t.Errorf("the page's script failed: %q", faults)
		}
	})
	return tab
}

// under is the same window in a test below.
func (t *tab) under(test *testing.T) *tab { return &tab{T: test, ctx: t.ctx, log: t.log} }

func (l *windowLog) listen(event any) {
	l.lock.Lock()
	defer l.lock.Unlock()
	switch event := event.(type) {
	case *network.EventRequestWillBeSent:
		l.requests = append(l.requests, event.Request.URL+event.Request.URLFragment)
	case *runtime.EventExceptionThrown:
		l.faults = append(l.faults, event.ExceptionDetails.Text+" "+event.ExceptionDetails.Exception.Description)
	case *runtime.EventConsoleAPICalled:
		if event.Type == runtime.ConsoleAPICalledTypeError {
			for _, logged := range event.Args {
				l.faults = append(l.faults, fmt.Sprint("console: ", logged.Description, string(logged.Value)))
			}
		}
	}
}

// told is a copy of what was heard so far.
func (l *windowLog) told(list *[]string) []string {
	l.lock.Lock()
	defer l.lock.Unlock()
	return slices.Clone(*list)
}

// visit opens an address and waits until the page takes something.
func (t *tab) visit(address string) {
	t.Helper()
	t.do(chromedp.Navigate(address))
	t.wait(`document.documentElement.dataset.ready === "true"`)
}

func (t *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	if err := chromedp.Do(t.ctx, steps...); err != nil {
		t.Fatal(err)
	}
}

// eval gives the value of an expression, or of a promise, in the page.
func eval[V any](t *tab, expression string) V {
	t.Helper()
	value, err := chromedp.Run(t.ctx, chromedp.Evaluate[V](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatalf("%s: %v", clipped(expression), err)
	}
	return value
}

// run evaluates statements.
func (t *tab) run(statements string) {
	t.Helper()
	eval[bool](t, "(async () => {"+statements+"})().then(() => true)")
}

// wait waits until a condition holds in the page, or its script has failed.
func (t *tab) wait(condition string) {
	t.Helper()
	for until := time.Now().Add(patience); !eval[bool](t, condition); time.Sleep(10 * time.Millisecond) {
		if len(t.log.told(&t.log.faults)) > 0 || time.Now().After(until) {
			t.Fatalf("waited in vain for %s; status: %q, verdict: %q", condition, t.text("#status"), t.text("#verdict"))
		}
	}
}

// text is an element's text as it is in the document, "" without the element.
func (t *tab) text(selector string) string {
	t.Helper()
	return eval[string](t, fmt.Sprintf(`document.querySelector(%s)?.textContent ?? ""`, quoted(selector)))
}

// shows says whether an element is there to be seen.
func (t *tab) shows(selector string) bool {
	t.Helper()
	return eval[bool](t, fmt.Sprintf(`document.querySelector(%s)?.checkVisibility() ?? false`, quoted(selector)))
}

// answered does what makes the page answer anew, and waits for the answer.
func (t *tab) answered(act func()) given {
	t.Helper()
	t.run(`document.getElementById("verdict").textContent = ""`)
	act()
	return t.answer()
}

// given is an answer as it stands on the page.
type given struct {
	Sentence string
	Sections []part
	Content  string // heading of what was signed, "" where it is not to be had
	Open     bool   // it is there to be read
	Cells    []string
}

type part struct {
	Heading string
	Lines   []string
}

// answer waits for the answer, and reads it off the page.
func (t *tab) answer() given {
	t.Helper()
	t.wait(`!document.getElementById("answer").hidden && document.getElementById("verdict").textContent !== ""`)
	t.wait(`!document.querySelector("#record details") || document.querySelector("#record details td") !== null`) // it comes behind the answer
	return eval[given](t, `(() => {
		const lines = (e, selector) => [...e.querySelectorAll(selector)].map((p) => p.textContent);
		const content = document.querySelector("#record details");
		return {
			Sentence: document.getElementById("verdict").textContent,
			Sections: [...document.querySelectorAll("#sections > section")].map((s) => ({ Heading: s.querySelector("h3").textContent, Lines: lines(s, "p") })),
			Content: content?.querySelector("summary").textContent ?? "",
			Open: content?.open ?? false,
			Cells: content ? lines(content, "th, td") : [],
		};
	})()`)
}

// fill types into a field, over what was there.
func (t *tab) fill(selector, text string) {
	t.Helper()
	t.do(chromedp.Focus(chromedp.CSS(selector)))
	t.run(fmt.Sprintf(`document.querySelector(%s).select()`, quoted(selector)))
	if text == "" {
		t.do(chromedp.KeyEvent("\b"))
		return
	}
	if _, err := chromedp.Call(t.ctx, input.InsertText, input.InsertTextParams{Text: text}); err != nil {
		t.Fatal(err)
	}
}

// reveal opens whatever folds an element away.
func (t *tab) reveal(selector string) {
	t.Helper()
	t.run(fmt.Sprintf(`for (let e = document.querySelector(%s); e; e = e.parentElement) if (e.tagName === "DETAILS") e.open = true`, quoted(selector)))
}

func (t *tab) click(selector string) {
	t.Helper()
	t.do(chromedp.Click(chromedp.CSS(selector)))
}

// choose chooses files in the field for them.
func (t *tab) choose(files ...string) {
	t.Helper()
	t.do(chromedp.SetUploadFiles(chromedp.CSS("#file"), files))
}

// drop drags files from outside over the page and lets them go over its drop zone.
func (t *tab) drop(files ...string) {
	t.Helper()
	t.do(chromedp.ScrollIntoView(chromedp.CSS("#drop")))
	at := eval[struct{ X, Y float64 }](t, `(() => { const r = document.getElementById("drop").getBoundingClientRect(); return { X: r.x + r.width / 2, Y: r.y + r.height / 2 } })()`)
	for _, kind := range []input.DispatchDragEventType{input.DispatchDragEventTypeDragEnter, input.DispatchDragEventTypeDragOver, input.DispatchDragEventTypeDrop} {
		if _, err := chromedp.Call(t.ctx, input.DispatchDragEvent, input.DispatchDragEventParams{
			Type: kind, X: at.X, Y: at.Y,
			Data: &input.DragData{Items: []*input.DragDataItem{}, Files: files, DragOperationsMask: 1},
		}); err != nil {
			t.Fatal(err)
		}
	}
}

// today is the reader's day, by the browser's clock.
func (t *tab) today() string {
	t.Helper()
	return eval[string](t, `(() => { const d = new Date(); return [d.getFullYear(), d.getMonth() + 1, d.getDate()].map((n) => String(n).padStart(2, "0")).join("-") })()`)
}

// quoted is a text as JavaScript has it.
func quoted(text string) string {
	line, err := json.Marshal(text)
	if err != nil {
		panic(err) // of a string, never
	}
	return string(line)
}

// bytesIn is an expression for bytes.
func bytesIn(data []byte) string {
	return fmt.Sprintf(`Uint8Array.from(atob("%s"), (letter) => letter.charCodeAt(0))`, base64.StdEncoding.EncodeToString(data))
}

func clipped(text string) string {
	if len(text) > 200 {
		text = text[:200] + "…"
	}
	return strings.Join(strings.Fields(text), " ")
}
