package words

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"
)

// selectedIn are the names that are selected anywhere in the files of a package,
// its tests left out: a field counts as used when its name is there, so that one
// which shares its name with a field of a record can slip through.
func selectedIn(t *testing.T, files string) map[string]bool {
	t.Helper()
	names, err := filepath.Glob(files)
	if err != nil {
		t.Fatal(err)
	}
	selected := map[string]bool{}
	for _, name := range names {
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
	return selected
}
