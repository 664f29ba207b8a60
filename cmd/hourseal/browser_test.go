package main

import (
	"context"
	"os"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"hourseal/record/recordtest/outside"
)

// The web page as its readers have it: in a browser, Debian's Chromium without a
// window. One browser and one page do for all tests, since to build the page and to
// start a browser take seconds each; every test has windows of its own, which share
// nothing.
//
//	HOURSEAL_AXE          axe.min.js of axe-core, which looks for what keeps people out
//	HOURSEAL_SCREENSHOTS  a folder for pictures of the page, to be looked at
//	HOURSEAL_LONG=1       runs them: they take minutes

// TestPageInBrowser is all of it.
func TestPageInBrowser(t *testing.T) {
	if !longRun() {
		t.Skip("HOURSEAL_LONG=1 drives a browser over the page, some minutes")
	}
	program := outside.Program(t, "chromium")
	data := newPageData(t)
	b := &browser{data: data, net: newWire(t, data)}
	b.start(t, program)
	for _, part := range []struct {
		name string
		test func(*testing.T, *browser)
	}{
		{"fragment", testFragments},
		{"code as it is printed", testPrintedCode},
		{"file", testFiles},
		{"dropped", testDropped},
		{"parts by fragment", testPartsByFragment},
		{"parts by picture", testPartsByPicture},
		{"typed", testTyped},
		{"text", testPastedText},
		{"key", testAddedKey},
		{"key file", testKeyFile},
		{"key listed", testListedKey},
		{"parts and a damaged one", testDamagedPart},
		{"camera", testCamera},
		{"keyboard", testKeyboard},
		{"focus", testFocus},
		{"network", testNetwork},
		{"policy", testPolicy},
		{"views", testViews},
		{"print", testPrint},
		{"time", testTime},
		{"kit", testKit},
	} {
		t.Run(part.name, func(t *testing.T) { part.test(t, b) })
	}
}

// browser is the browser with what it is shown and what it can reach.
type browser struct {
	data *pageData
	net  *wire
	ctx  context.Context
}

// start starts the browser. Everything that it asks for, of its own host too, goes
// through the network of these tests.
func (b *browser) start(t *testing.T, program string) {
	t.Helper()
	ctx, cancel := chromedp.NewExecAllocator(context.Background(),
		chromedp.ExecPath(program), chromedp.UserDataDir(t.TempDir()), chromedp.Headless,
		chromedp.NoSandbox, // for root, as whom tests run in containers
		chromedp.NoFirstRun, chromedp.NoDefaultBrowserCheck,
		chromedp.Flag("disable-gpu", true),
		chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true),
		chromedp.Flag("disable-extensions", true),
		chromedp.Flag("disable-features", "AutofillServerCommunication,OptimizationHints,MediaRouter"),
		chromedp.Flag("disable-dev-shm-usage", true),
		chromedp.Flag("force-color-profile", "srgb"),
		chromedp.Flag("proxy-server", b.net.proxy.URL),
		chromedp.Flag("proxy-bypass-list", "<-loopback>"),
		chromedp.Flag("ignore-certificate-errors", true), // of our own site
		chromedp.Flag("use-fake-device-for-media-stream", true),
		chromedp.Flag("use-fake-ui-for-media-stream", true), // allows the camera
		chromedp.Flag("use-file-for-fake-video-capture", b.data.video),
	)
	t.Cleanup(cancel)
	b.ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	if err := chromedp.Do(b.ctx); err != nil {
		t.Fatal(err)
	}
}

// longRun says whether the run takes the time for everything.
func longRun() bool { return os.Getenv("HOURSEAL_LONG") == "1" }

// patience is how long a test waits for what takes seconds at most.
const patience = 60 * time.Second
