package model_test

import (
	"bytes"
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const module = "daub.example/daub/"

// listed is what the go command says of a package.
type listed struct {
	ImportPath string
	Dir        string
	GoFiles    []string
	Imports    []string
}

func packages(t *testing.T) []listed {
	t.Helper()
	out, err := exec.Command("go", "list", "-e", "-json=ImportPath,Dir,GoFiles,Imports", module+"...").Output()
	require.NoError(t, err)
	var ps []listed
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		err := d.Decode(&p)
		if err == io.EOF {
			return ps
		}
		require.NoError(t, err)
		ps = append(ps, p)
	}
}

// layer is the top folder of one of our packages, with those of model apart.
func layer(path string) string {
	path = strings.TrimPrefix(path, module)
	top, _, _ := strings.Cut(path, "/")
	if top == "model" || path == "data/atomicfile" || path == "data/parallel" {
		return path
	}
	return top
}

// The arrows: cmd → all; tui → model; data → model; model → fit; typed → model;
// fit and printable → nothing of ours.
func TestArrows(t *testing.T) {
	may := map[string][]string{
		"cmd": {
			"cmd", "tui", "data", "data/atomicfile", "data/parallel", "model", "model/fit", "model/typed", "model/printable",
		},
		"tui":             {"tui", "model", "model/fit", "model/typed", "model/printable"},
		"data":            {"data", "data/atomicfile", "data/parallel", "model", "model/fit", "model/printable"},
		"data/atomicfile": {},
		"data/parallel":   {},
		"model":           {"model/fit"},
		"model/fit":       {},
		"model/typed":     {"model"},
		"model/printable": {},
	}
	seen := map[string]bool{}
	for _, p := range packages(t) {
		from := layer(p.ImportPath)
		require.Contains(t, may, from, "%s is in none of the layers", p.ImportPath)
		seen[from] = true
		for _, imported := range p.Imports {
			if strings.HasPrefix(imported, module) {
				assert.Contains(t, may[from], layer(imported), "%s imports %s", p.ImportPath, imported)
			}
		}
	}
	assert.True(t, seen["model"] && seen["model/fit"])
}

// Clock, files, environment and goroutines are cmd's and data's: what the
// screens and the trade say depends on what they are given alone.
func TestPureLayers(t *testing.T) {
	for _, p := range packages(t) {
		if top, _, _ := strings.Cut(layer(p.ImportPath), "/"); top != "tui" && top != "model" {
			continue
		}
		for _, name := range p.GoFiles {
			files := token.NewFileSet()
			file, err := parser.ParseFile(files, filepath.Join(p.Dir, name), nil, 0)
			require.NoError(t, err)
			for _, i := range file.Imports {
				path, _ := strconv.Unquote(i.Path.Value)
				top, _, _ := strings.Cut(path, "/")
				assert.NotEqual(t, "os", top, "%s imports %s", name, path)
			}
			ast.Inspect(file, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.GoStmt:
					assert.Fail(t, "a go statement", files.Position(n.Pos()))
				case *ast.SelectorExpr:
					x, ok := n.X.(*ast.Ident)
					clock := ok && x.Name == "time" && (n.Sel.Name == "Now" || n.Sel.Name == "Since" || n.Sel.Name == "Until")
					assert.False(t, clock, "%s reads the clock", files.Position(n.Pos()))
				}
				return true
			})
		}
	}
}
