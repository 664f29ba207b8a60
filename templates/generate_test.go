package templates_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"
)

var update = flag.Bool("update", false, "write the JSON of words and steps anew")

// Each file of words and steps has its JSON beside it, and no JSON stands there
// without one.
func TestJSONIsMadeFromYAML(t *testing.T) {
	for _, folder := range []string{"words", "steps"} {
		sources, err := filepath.Glob(filepath.Join(folder, "*.yaml"))
		if err != nil || len(sources) < 6 {
			t.Errorf("%s: only %d files (%v)", folder, len(sources), err)
		}
		made := map[string]bool{}
		for _, source := range sources {
			name := strings.TrimSuffix(source, ".yaml") + ".json"
			made[name] = true
			data, err := os.ReadFile(source)
			if err != nil {
				t.Fatal(err)
			}
			want, err := jsonOf(data)
			if err != nil {
				t.Errorf("%s: %v", source, err)
				continue
			}
			if *update {
				if err := os.WriteFile(name, want, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			got, err := os.ReadFile(name)
			if err != nil && !errors.Is(err, fs.ErrNotExist) {
				t.Fatal(err)
			}
			if !bytes.Equal(got, want) {
				t.Errorf("%s is not what %s says: run go test ./templates -update", name, source)
			}
		}
		present, err := filepath.Glob(filepath.Join(folder, "*.json"))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range present {
			if !made[name] {
				t.Errorf("%s is made from nothing: delete it", name)
			}
		}
	}
}

// jsonOf is a YAML file as JSON: the same keys in the same order, one a line,
// without the comments.
func jsonOf(source []byte) ([]byte, error) {
	decoder := yaml.NewDecoder(bytes.NewReader(source))
	var document yaml.Node
	if err := decoder.Decode(&document); err != nil {
		return nil, err
	}
	if err := decoder.Decode(new(yaml.Node)); !errors.Is(err, io.EOF) {
		return nil, errors.New("a second document stands behind the first")
	}
	var value any
	if err := document.Decode(&value); err != nil { // a key twice, which a node lets pass
		return nil, err
	}
	var packed, indented bytes.Buffer
	if err := appendJSON(&packed, document.Content[0]); err != nil {
		return nil, err
	}
	if err := json.Indent(&indented, packed.Bytes(), "", "  "); err != nil {
		return nil, err
	}
	indented.WriteByte('\n')
	return indented.Bytes(), nil
}

// plainKey is a key that JSON cannot mistake: its readers here take fields without
// regard to case.
var plainKey = regexp.MustCompile(`^[a-z0-9_-]+$`)

// appendJSON writes a piece of a file. Its values are texts, as they are written, and
// true and false: a number is text, and where nothing stands it is an error.
func appendJSON(out *bytes.Buffer, n *yaml.Node) error {
	tag := n.ShortTag()
	switch {
	case n.Kind == yaml.MappingNode:
		out.WriteByte('{')
		for i := 0; i < len(n.Content); i += 2 {
			key := n.Content[i]
			if key.ShortTag() != "!!str" || !plainKey.MatchString(key.Value) {
				return fmt.Errorf("line %d: key %q: want small letters, digits, - and _", key.Line, key.Value)
			}
			if i > 0 {
				out.WriteByte(',')
			}
			if err := appendText(out, key.Value); err != nil {
				return err
			}
			out.WriteByte(':')
			if err := appendJSON(out, n.Content[i+1]); err != nil {
				return err
			}
		}
		out.WriteByte('}')
	case n.Kind == yaml.SequenceNode:
		out.WriteByte('[')
		for i, item := range n.Content {
			if i > 0 {
				out.WriteByte(',')
			}
			if err := appendJSON(out, item); err != nil {
				return err
			}
		}
		out.WriteByte(']')
	case n.Kind == yaml.ScalarNode && tag == "!!bool" && (n.Value == "true" || n.Value == "false"):
		out.WriteString(n.Value)
	case n.Kind == yaml.ScalarNode && (tag == "!!str" || tag == "!!int" || tag == "!!float" || tag == "!!timestamp"):
		return appendText(out, n.Value)
	default:
		return fmt.Errorf("line %d: %q: want text, true, false, keys or a list", n.Line, n.Value)
	}
	return nil
}

func appendText(out *bytes.Buffer, text string) error {
	encoder := json.NewEncoder(out)
	encoder.SetEscapeHTML(false)
	return encoder.Encode(text)
}

func TestJSONOf(t *testing.T) {
	for source, want := range map[string]string{
		"b: x # y\na: { c: [d, 'e'], f: \"<&> é \\\" {g}\" }\n": `{"b":"x","a":{"c":["d","e"],"f":"<&> é \" {g}"}}`,
		"a: no\nb: on\non: y\nc: 0012\nd: 1.10\ne: 2026-05-04":  `{"a":"no","b":"on","on":"y","c":"0012","d":"1.10","e":"2026-05-04"}`,
		"a: true\nb: 'true'\nc: false":                          `{"a":true,"b":"true","c":false}`,
		"- a\n- []\n- {}":                                       `["a",[],{}]`,
		"a: >\n  b\n  c":                                        `{"a":"b c"}`,
	} {
		got, err := jsonOf([]byte(source))
		var packed bytes.Buffer
		if err == nil {
			err = json.Compact(&packed, got)
		}
		if err != nil || packed.String() != want {
			t.Errorf("%q: %s, want %s (%v)", source, packed.String(), want, err)
		}
	}
	got, err := jsonOf([]byte("a: { b: [c] }"))
	if want := "{\n  \"a\": {\n    \"b\": [\n      \"c\"\n    ]\n  }\n}\n"; err != nil || string(got) != want {
		t.Errorf("%s (%v)", got, err)
	}
	for source, want := range map[string]string{
		"":                      "EOF",
		"a: b\na: c":            "already defined",
		"x:\n  - {a: b, a: c}":  "already defined",
		"a: b\nA: c":            `key "A"`,
		"12: b":                 `key "12"`,
		"true: b":               `key "true"`,
		"{? [a] : b}":           "invalid map key",
		"a:":                    "line 1",
		"a: b\nc: ~":            "line 2",
		"a: True":               "line 1",
		"a: !!binary YQ==":      "line 1",
		"a: &x b\nc: *x":        "line 2",
		"a: b\n---\nc: d":       "second document",
		"a: &x {b: c}\n<<: *x":  `key "<<"`,
		"a: \"b":                "found unexpected end",
		"x: {a: b, \u017fa: c}": "key",
	} {
		if got, err := jsonOf([]byte(source)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %s, %v, want %q", source, got, err, want)
		}
	}
}
