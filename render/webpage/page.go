package webpage

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"html"
	"io/fs"
	"slices"
	"strings"

	"hourseal/sign"
	"hourseal/templates"
)

// MaxBytes is the length of the longest page: what a telephone loads in a harbour.
const MaxBytes = 3_000_000

// Maker is whose page it is.
type Maker struct {
	Name string
	Host string // where the maker's page is; "" for nowhere
	// Trust is what the page knows: the maker's keys.
	Trust sign.TrustList
	// Statements say more of these keys (keys.cose); nil for none.
	Statements []byte
}

// Program is the program inside the page.
type Program struct {
	Gzip []byte // cmd/page for js/wasm, gzipped
	Glue []byte // wasm_exec.js of the Go that built it
}

// scripts are the parts of the page's script in their order; engine runs in a
// worker, too, so it is an element of its own.
var scripts = []string{"program.js", "kept.js", "inputs.js", "answer.js", "keys.js", "camera.js", "page.js"}

// Page makes the page. It fails where the maker has no name or no key, where the
// statements cannot be read, and where the page would be too long.
func Page(maker Maker, program Program) ([]byte, error) {
	switch {
	case maker.Name == "":
		return nil, errors.New("the page's maker has no name")
	case len(maker.Trust) == 0:
		return nil, errors.New("the page's maker has no key")
	case len(program.Gzip) == 0 || len(program.Glue) == 0:
		return nil, errors.New("the program of the page is empty")
	}
	keys, err := KeysOf(maker)
	if err != nil {
		return nil, err
	}
	known, err := json.Marshal(madeWith(maker)) // which escapes <, > and &
	if err != nil {
		return nil, err
	}
	parts, err := readParts()
	if err != nil {
		return nil, err
	}
	engine := glueLicence + script(string(program.Glue)) + "\n" + parts.engine
	page := strings.NewReplacer(
		"{{policy}}", policy(parts.style, engine, parts.script, takePiece),
		"{{whose}}", html.EscapeString(possessive(maker.Name)+" page for checking its service reports"),
		"{{made-for}}", madeFor(maker.Host),
		"{{keys}}", keyList(keys),
		"{{made-with}}", string(known),
		"{{style}}", parts.style,
		"{{engine}}", engine,
		"{{script}}", parts.script,
		"{{program}}", pieces(program.Gzip),
	).Replace(parts.page)
	if len(page) >= MaxBytes {
		return nil, fmt.Errorf("the page would be %d bytes long, the limit is %d", len(page), MaxBytes)
	}
	return []byte(page), nil
}

// The program stands in the page in pieces, so that a browser compiles the first of them
// while the rest is still coming in. After each a script hands it on.
const (
	pieceBytes = 192 << 10 // a multiple of three, so that base64 pads the last piece alone
	takePiece  = "program.take();"
)

// pieces are the program's, as HTML.
func pieces(program []byte) string {
	var b strings.Builder
	for piece := range slices.Chunk(program, pieceBytes) {
		fmt.Fprintf(&b, "<script type=\"application/octet-stream\">%s</script><script>%s</script>\n", base64.StdEncoding.EncodeToString(piece), takePiece)
	}
	return b.String()
}

// glueLicence stands above Go's wasm_exec.js, whose licence asks for it.
const glueLicence = `// What follows up to "The program of this page" is wasm_exec.js of Go:
// Copyright 2009 The Go Authors.
//
// Redistribution and use in source and binary forms, with or without
// modification, are permitted provided that the following conditions are
// met:
//
//    * Redistributions of source code must retain the above copyright
// notice, this list of conditions and the following disclaimer.
//    * Redistributions in binary form must reproduce the above
// copyright notice, this list of conditions and the following disclaimer
// in the documentation and/or other materials provided with the
// distribution.
//    * Neither the name of Google LLC nor the names of its
// contributors may be used to endorse or promote products derived from
// this software without specific prior written permission.
//
// THIS SOFTWARE IS PROVIDED BY THE COPYRIGHT HOLDERS AND CONTRIBUTORS
// "AS IS" AND ANY EXPRESS OR IMPLIED WARRANTIES, INCLUDING, BUT NOT
// LIMITED TO, THE IMPLIED WARRANTIES OF MERCHANTABILITY AND FITNESS FOR
// A PARTICULAR PURPOSE ARE DISCLAIMED. IN NO EVENT SHALL THE COPYRIGHT
// OWNER OR CONTRIBUTORS BE LIABLE FOR ANY DIRECT, INDIRECT, INCIDENTAL,
// SPECIAL, EXEMPLARY, OR CONSEQUENTIAL DAMAGES (INCLUDING, BUT NOT
// LIMITED TO, PROCUREMENT OF SUBSTITUTE GOODS OR SERVICES; LOSS OF USE,
// DATA, OR PROFITS; OR BUSINESS INTERRUPTION) HOWEVER CAUSED AND ON ANY
// THEORY OF LIABILITY, WHETHER IN CONTRACT, STRICT LIABILITY, OR TORT
// (INCLUDING NEGLIGENCE OR OTHERWISE) ARISING IN ANY WAY OUT OF THE USE
// OF THIS SOFTWARE, EVEN IF ADVISED OF THE POSSIBILITY OF SUCH DAMAGE.

`

// policy is the page's Content Security Policy. A browser hashes what stands
// between the tags, so the texts are to go in as they are here.
func policy(style string, scripts ...string) string {
	allowed := ""
	for _, s := range scripts {
		allowed += hash(s) + " "
	}
	return strings.Join([]string{
		"default-src 'none'",
		"script-src " + allowed + "'wasm-unsafe-eval'",
		"style-src " + hash(style),
		"worker-src blob:",
		"img-src data:",
		"base-uri 'none'",
		"form-action 'none'",
		"webrtc 'block'", // which default-src does not cover
	}, "; ")
}

func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// texts are the page's own files.
type texts struct{ page, style, engine, script string }

func readParts() (texts, error) {
	var t texts
	var err error
	read := func(name string) string {
		data, readErr := fs.ReadFile(templates.Page(), name)
		err = errors.Join(err, readErr)
		return script(string(data))
	}
	t.page, t.style, t.engine = read("page.html"), read("page.css"), read("engine.js")
	t.script = "\"use strict\";\n"
	for _, name := range scripts {
		t.script += "\n" + read(name)
	}
	return t, err
}

// script is a text as a browser sees it, which makes one newline of a carriage
// return and a newline before it hashes.
func script(text string) string { return strings.ReplaceAll(text, "\r\n", "\n") }
