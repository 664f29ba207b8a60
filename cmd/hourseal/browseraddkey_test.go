package main

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"hourseal/verify"
)

// testAddedKey: a key that the reader adds makes its signer known, and taking it
// away again makes them unknown.
func testAddedKey(t *testing.T, b *browser) {
	tab := b.open(t, "file://"+b.data.file+fragment(b.data.unknown[0]))
	tab.says(tab.answer(), b.expectTexts(tab, []string{fragment(b.data.unknown[0])}, "", ""), verify.UnknownSigner)
	tab.reveal("#addkey")
	tab.fill("#keyline", b.data.stranger.OpenSSHLine("theirs"))
	tab.fill("#keyname", "South Quay Marine")
	got := tab.answered(func() { tab.click("#addkey") })
	if !strings.Contains(got.Sentence, "signed by South Quay Marine") || !got.Open {
		t.Errorf("with the key added the page says %s", got.Sentence)
	}
	if said := tab.text("#own"); !strings.Contains(said, b.data.stranger.Fingerprint()) {
		t.Errorf("the key is not listed with its fingerprint: %s", said)
	}
	tab.reveal("#own-keys")
	if got := tab.answered(func() { tab.click("#own-keys button") }); got.Open || tab.shows("#own") || strings.Contains(got.Sentence, "South Quay") {
		t.Errorf("with the key taken away again the page says %s", got.Sentence)
	}
	tab.reveal("#addkey")
	tab.fill("#keyline", "ssh-ed25519 rubbish")
	tab.click("#addkey")
	tab.wait(`document.getElementById("key-fault").textContent !== ""`)
}

// testKeyFile: the file that ssh-keygen writes goes into the field as it is, without a
// comment at its end and with one above it, too.
func testKeyFile(t *testing.T, b *browser) {
	line := b.data.stranger.OpenSSHLine("")
	for name, file := range map[string]string{
		"without a comment": line + "\n",
		"with lines above":  "# South Quay Marine, by telephone on 4 May, from the number that stands on their sign above the gate: 01632 960123\n\n" + line + "\n",
		"with a long one":   b.data.stranger.OpenSSHLine(strings.Repeat("service ", 30)) + "\r\n",
	} {
		t.Run(name, func(t *testing.T) {
			tab := b.open(t, "file://"+b.data.file+fragment(b.data.unknown[0]))
			tab.answer()
			tab.reveal("#addkey")
			tab.do(chromedp.SetUploadFiles(chromedp.CSS("#keyfile"), []string{inFile(t, t.TempDir(), "theirs.pub", []byte(file))}))
			tab.wait(`document.getElementById("keyline").value !== ""`)
			if got := eval[string](tab, `document.getElementById("keyline").value`); got != strings.ReplaceAll(file, "\r\n", "\n") {
				t.Errorf("in the field is %q", got)
			}
			tab.fill("#keyname", "South Quay Marine")
			got := tab.answered(func() { tab.click("#addkey") })
			if !strings.Contains(got.Sentence, "signed by South Quay Marine") {
				t.Errorf("with the key added the page says %s; %s", got.Sentence, tab.text("#key-fault"))
			}
		})
	}
	t.Run("too long", func(t *testing.T) {
		tab := b.open(t, "file://"+b.data.file)
		tab.reveal("#addkey")
		long := inFile(t, t.TempDir(), "long.pub", []byte(line+"\n"+strings.Repeat("#", 64<<10)))
		tab.do(chromedp.SetUploadFiles(chromedp.CSS("#keyfile"), []string{long}))
		tab.wait(`document.getElementById("key-fault").textContent.includes("too long")`)
	})
}

// testListedKey: a key that follows from one of the page's own by a statement counts from
// its day on. A reader who adds it again would have it count on any day.
func testListedKey(t *testing.T, b *browser) {
	page := b.data.renewed
	tab := b.open(t, "file://"+page.file+fragment(page.early))
	before := tab.answer()
	if !strings.Contains(tab.text(".key-list"), page.next.Fingerprint()) {
		t.Fatalf("the page does not list the new key: %s", tab.text(".key-list"))
	}
	if verdict := eval[string](tab, `document.getElementById("answer").dataset.verdict`); verdict != string(verify.KeyNotValid) {
		t.Fatalf("of a record before the key's day the page says %s: %s", verdict, before.Sentence)
	}
	tab.reveal("#addkey")
	tab.fill("#keyline", page.next.OpenSSHLine("again"))
	tab.fill("#keyname", "South Quay Marine")
	tab.click("#addkey")
	tab.wait(`document.getElementById("key-fault").textContent !== "" || !document.getElementById("own").hidden`)
	if said := tab.text("#key-fault"); !strings.Contains(said, "in the list above already") || tab.shows("#own") {
		t.Errorf("of a key that is listed the page says %q", said)
	}
	if got := tab.answer(); got.Sentence != before.Sentence {
		t.Errorf("with the key given again the page says %s", got.Sentence)
	}
	t.Run("name at fault", func(t *testing.T) {
		tab := tab.under(t)
		tab.fill("#keyline", b.data.stranger.OpenSSHLine(""))
		tab.fill("#keyname", "")
		tab.click("#addkey")
		tab.wait(`document.getElementById("key-fault").textContent.startsWith("Give the key a name")`)
		if at := tab.focused().Name; at != "keyname" {
			t.Errorf("the focus is on %q", at)
		}
		if by := eval[string](tab, `document.getElementById("keyname").getAttribute("aria-describedby") ?? ""`); by != "key-fault" {
			t.Errorf("the field is described by %q", by)
		}
	})
}
