package words

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// Every caption is used by the package that prints the report. A field counts
// as used when its name is selected anywhere in that package, so one that shares
// its name with a field of a record can slip through.
func TestEveryCaptionIsUsed(t *testing.T) {
	files, err := filepath.Glob("../*.go")
	if err != nil {
		t.Fatal(err)
	}
	selected := map[string]bool{}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if s, ok := n.(*ast.SelectorExpr); ok {
				selected[s.Sel.Name] = true
			}
			return true
		})
	}
	if !selected["Report"] {
		t.Fatal("nothing prints the report")
	}
	sections := reflect.TypeFor[Texts]()
	for i := range sections.NumField() {
		section := sections.Field(i)
		for j := range section.Type.NumField() {
			field := section.Type.Field(j)
			// Results are reached through ResultOf and ResultOfOther.
			if !selected[field.Name] && !(field.Name == "Results" && selected["ResultOf"]) {
				t.Errorf("%s/%s is never printed", section.Tag.Get("yaml"), field.Tag.Get("yaml"))
			}
		}
	}
}
