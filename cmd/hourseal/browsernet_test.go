package main

import (
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"
)

// wire is all that the browser can reach: a proxy that writes down what it is asked
// for, and behind it the yard's web host with the page on it. That host answers for
// every other, too, so that what the page would ask of one is heard.
type wire struct {
	page  []byte
	host  string // of the yard's page
	proxy *httptest.Server
	site  *httptest.Server // TLS, as the host would be

	lock   sync.Mutex
	asked  []string // addresses that were asked for
	joined []string // hosts to which a connection was opened, whether or not something was asked
}

func newWire(t *testing.T, data *pageData) *wire {
	n := &wire{page: data.page, host: data.host}
	n.site = httptest.NewTLSServer(http.HandlerFunc(n.serve))
	t.Cleanup(n.site.Close)
	n.proxy = httptest.NewServer(http.HandlerFunc(n.pass))
	t.Cleanup(n.proxy.Close)
	return n
}

// loopback is where the page is served on this machine, as a yard tries it out.
func (n *wire) loopback() string { return "http://127.0.0.1:8080/" }

// serve gives the page at the addresses where it is, and writes down every address.
func (n *wire) serve(w http.ResponseWriter, r *http.Request) {
	address := r.URL.String()
	if r.TLS != nil {
		address = "https://" + r.Host + address
	}
	n.note(&n.asked, address)
	if address != n.address() && address != n.loopback() {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Write(n.page)
}

// ofTheMaker are hosts that Chromium asks for by itself, whatever page it shows and for
// all its flags: updates, the time, hints of its maker's. The page names none of them,
// and the browser's log of what the page asks for is looked at beside this.
var ofTheMaker = []string{".googleapis.com", ".google.com", ".gvt1.com"}

// pass is the proxy.
func (n *wire) pass(w http.ResponseWriter, r *http.Request) {
	host := r.URL.Hostname()
	switch {
	case slices.ContainsFunc(ofTheMaker, func(maker string) bool { return strings.HasSuffix(host, maker) }):
		http.Error(w, "nobody there", http.StatusBadGateway)
	case r.Method == http.MethodConnect:
		n.note(&n.joined, host)
		n.tunnel(w)
	default:
		n.serve(w, r)
	}
}

// tunnel joins the browser to the site.
func (n *wire) tunnel(w http.ResponseWriter) {
	site, err := net.Dial("tcp", n.site.Listener.Addr().String())
	if err != nil {
		http.Error(w, err.Error(), http.StatusBadGateway)
		return
	}
	w.WriteHeader(http.StatusOK)
	browser, buffered, err := http.NewResponseController(w).Hijack()
	if err != nil {
		site.Close()
		return
	}
	go func() {
		io.Copy(site, buffered)
		site.Close()
	}()
	go func() {
		io.Copy(browser, site)
		browser.Close()
	}()
}

func (n *wire) note(list *[]string, what string) {
	n.lock.Lock()
	defer n.lock.Unlock()
	*list = append(*list, what)
}

// since gives what came to a list after the first so many.
func (n *wire) since(list *[]string, first int) []string {
	n.lock.Lock()
	defer n.lock.Unlock()
	return slices.Clone((*list)[first:])
}

func (n *wire) count(list *[]string) int { return len(n.since(list, 0)) }

// address is the yard's page as a reader types it.
func (n *wire) address() string { return fmt.Sprintf("https://%s/", n.host) }
