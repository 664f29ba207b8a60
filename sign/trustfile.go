//go:build !js

// Trust files are left out of the web page, which has its keys in it: the reader of
// YAML and what it needs would be a tenth of it.

package sign

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// maxTrustFileBytes bounds what ParseTrust looks at: some thousand entries.
const maxTrustFileBytes = 1 << 20

// ParseTrust reads a trust file, described at the top of the package; path is
// for the messages. An empty file is an empty list. The error is [Faults], all
// of them; a fault of YAML itself comes alone, with the line that the YAML
// reader gives.
func ParseTrust(data []byte, path string) (TrustList, error) {
	r := trustReader{path: path}
	root := r.document(data)
	if root == nil {
		return nil, r.err()
	}
	list := r.list(root)
	if err := r.err(); err != nil {
		return nil, err
	}
	return list, nil
}

// trustReader turns nodes into entries and gathers faults.
type trustReader struct {
	path   string
	faults Faults
}

func (r *trustReader) err() error {
	if len(r.faults) == 0 {
		return nil
	}
	r.faults.sort()
	return r.faults
}

func (r *trustReader) fault(line, column int, format string, args ...any) {
	r.faults = append(r.faults, Fault{Path: r.path, Line: max(line, 1), Column: max(column, 1), Message: fmt.Sprintf(format, args...)})
}

func (r *trustReader) at(n *yaml.Node, format string, args ...any) {
	r.fault(n.Line, n.Column, format, args...)
}

// document reads the one YAML document there may be; nil when it is empty or
// there is a fault.
func (r *trustReader) document(data []byte) *yaml.Node {
	if len(data) > maxTrustFileBytes {
		r.fault(1, 1, "file of %d bytes, the limit is %d", len(data), maxTrustFileBytes)
		return nil
	}
	if !utf8.Valid(data) {
		r.fault(1, 1, "not UTF-8 text: save the file as UTF-8")
		return nil
	}
	// The YAML reader takes "a:<tab>1"; what a tab means is anybody's guess.
	for i, line := range bytes.Split(data, []byte("\n")) {
		if tab := bytes.IndexByte(line, '\t'); tab >= 0 {
			r.fault(i+1, utf8.RuneCount(line[:tab])+1, "tab: use spaces")
		}
	}
	if len(r.faults) > 0 {
		return nil
	}
	decoder := yaml.NewDecoder(bytes.NewReader(data))
	var doc yaml.Node
	if err := decoder.Decode(&doc); err != nil {
		if err != io.EOF {
			r.syntax(err)
		}
		return nil
	}
	var second yaml.Node
	switch err := decoder.Decode(&second); {
	case err == nil:
		r.at(&second, "a second document: keep one list in the file")
	case err != io.EOF:
		r.syntax(err)
	}
	if len(r.faults) > 0 || len(doc.Content) != 1 {
		return nil
	}
	root := doc.Content[0]
	if isNull(root) && root.Value == "" && root.Style == 0 && root.Tag == "!!null" && root.Anchor == "" {
		return nil // only comments, or nothing after ---
	}
	return root
}

// syntax reports an error of the YAML reader, "yaml: line 3: …" or "yaml: …".
func (r *trustReader) syntax(err error) {
	text := strings.TrimPrefix(err.Error(), "yaml: ")
	line := 1
	if after, ok := strings.CutPrefix(text, "line "); ok {
		if number, rest, ok := strings.Cut(after, ": "); ok {
			if n, err := strconv.Atoi(number); err == nil {
				line, text = n, rest
			}
		}
	}
	r.fault(line, 1, "not YAML: %s", printable(text))
}

// plain refuses the parts of YAML that let a file mean something else than it
// seems to: anchors, aliases and tags.
func (r *trustReader) plain(n *yaml.Node) bool {
	switch {
	case n.Kind == yaml.AliasNode:
		r.at(n, "alias: write the value out")
	case n.Anchor != "":
		r.at(n, "anchor: write the value out")
	case n.Style&yaml.TaggedStyle != 0:
		r.at(n, "tag: leave it out")
	default:
		return true
	}
	return false
}

func isNull(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Tag == "!!null"
}

func (r *trustReader) list(root *yaml.Node) TrustList {
	if !r.plain(root) {
		return nil
	}
	if root.Kind != yaml.SequenceNode {
		r.at(root, `want a list: each entry begins with "- name:"`)
		return nil
	}
	list := make(TrustList, 0, len(root.Content))
	lines := make(map[PublicKey]int, len(root.Content))
	for _, n := range root.Content {
		entry, keyNode := r.entry(n)
		if keyNode == nil {
			continue
		}
		if line, twice := lines[entry.Key]; twice {
			r.at(keyNode, "key: the same key as in line %d: keep one of the two", line)
			continue
		}
		lines[entry.Key] = keyNode.Line
		list = append(list, entry)
	}
	return list
}

// entry reads one entry. The node of its key comes with it, nil where the key
// is missing or faulty.
func (r *trustReader) entry(n *yaml.Node) (Trusted, *yaml.Node) {
	fields, ok := r.fields(n, "name", "key", "from", "until", "note", "revoked")
	if !ok {
		return Trusted{}, nil
	}
	var (
		t       Trusted
		keyNode *yaml.Node
	)
	if v := fields["name"]; v == nil {
		r.at(n, "name: missing: whose key is it?")
	} else if text, ok := r.text(v, "name"); ok {
		if err := checkName(text); err != nil {
			r.at(v, "name: %v", err)
		}
		t.Name = text
	}
	if v := fields["key"]; v == nil {
		r.at(n, "key: missing: give the line of the .pub file")
	} else if text, ok := r.text(v, "key"); ok {
		key, _, err := ParsePublicKey([]byte(text))
		if err != nil {
			r.at(v, "key: %v", err)
		} else {
			t.Key, keyNode = key, v
		}
	}
	t.From = r.day(fields["from"], "from")
	t.Until = r.day(fields["until"], "until")
	if t.From != nil && t.Until != nil && *t.Until < *t.From {
		r.at(fields["until"], "until: %s is before from, %s", *t.Until, *t.From)
	}
	if v := fields["note"]; v != nil {
		if text, ok := r.text(v, "note"); ok {
			if err := checkNote(text); err != nil {
				r.at(v, "note: %v", err)
			}
			t.Note = text
		}
	}
	if v := fields["revoked"]; v != nil {
		t.Revoked = r.revocation(v)
	}
	return t, keyNode
}

func (r *trustReader) revocation(n *yaml.Node) *Revocation {
	const want = "write it as { from: 2026-05-04, why: retired } or why: compromised"
	if n.Kind != yaml.MappingNode && r.plain(n) {
		r.at(n, "revoked: %s", want)
		return nil
	}
	fields, ok := r.fields(n, "from", "why")
	if !ok {
		return nil
	}
	var v Revocation
	if from := fields["from"]; from == nil {
		r.at(n, "revoked: from is missing: %s", want)
	} else if day := r.day(from, "revoked: from"); day != nil {
		v.From = *day
	}
	if why := fields["why"]; why == nil {
		r.at(n, "revoked: why is missing: %s", want)
	} else if text, ok := r.text(why, "revoked: why"); ok {
		v.Why = RevokedWhy(text)
		if err := v.Why.check(); err != nil {
			r.at(why, "revoked: why: %v", err)
		}
	}
	return &v
}

// fields gives the values of a mapping by key; each key must be one of allowed
// and stand there once.
func (r *trustReader) fields(n *yaml.Node, allowed ...string) (map[string]*yaml.Node, bool) {
	if !r.plain(n) {
		return nil, false
	}
	if n.Kind != yaml.MappingNode {
		r.at(n, "want keys and values: %s", strings.Join(allowed, ", "))
		return nil, false
	}
	fields := make(map[string]*yaml.Node, len(allowed))
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		if !r.plain(key) {
			continue
		}
		name := ""
		for _, a := range allowed {
			if key.Kind == yaml.ScalarNode && key.Value == a {
				name = a
			}
		}
		switch {
		case name == "":
			r.at(key, "unknown key %s: the keys are %s", quoteShort(key.Value), strings.Join(allowed, ", "))
		case fields[name] != nil:
			r.at(key, "%s: twice, first in line %d", name, fields[name].Line)
		default:
			fields[name] = value
		}
	}
	return fields, true
}

// text gives the text of a scalar as it was written, whatever YAML takes it for.
func (r *trustReader) text(n *yaml.Node, field string) (string, bool) {
	switch {
	case !r.plain(n):
		return "", false
	case n.Kind != yaml.ScalarNode:
		r.at(n, "%s: want a single value", field)
		return "", false
	case isNull(n):
		r.at(n, "%s: empty: give it or leave the key out", field)
		return "", false
	}
	return n.Value, true
}

// day reads a date; nil for none, or with a fault.
func (r *trustReader) day(n *yaml.Node, field string) *Day {
	if n == nil {
		return nil
	}
	text, ok := r.text(n, field)
	if !ok {
		return nil
	}
	day, err := ParseDay(text)
	if err != nil {
		r.at(n, "%s: %s: %v", field, quoteShort(text), err)
		return nil
	}
	return &day
}
