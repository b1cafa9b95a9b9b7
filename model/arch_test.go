package model_test

import (
	"bytes"
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const module = "daub.example/daub/"

// listed holds the go command's description of a package.
type listed struct {
	ImportPath string
	Dir        string
	GoFiles    []string
	Imports    []string

	TestGoFiles, XTestGoFiles, IgnoredGoFiles []string // ignored: for another system, or under a tag
}

func packages(t *testing.T) []listed {
	t.Helper()
	const asked = "-json=ImportPath,Dir,GoFiles,Imports,TestGoFiles,XTestGoFiles,IgnoredGoFiles"
	out, err := exec.Command("go", "list", "-e", asked, module+"...").Output()
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

// room is a package's place below the module, as in "model/fit".
func room(path string) string { return strings.TrimPrefix(path, module) }

// mayImport lists, for each room, the rooms of ours that it may import. A name
// that ends in /… stands for the room and all below it.
var mayImport = map[string][]string{
	"cmd/daub":                 {"cmd/daub/internal/…", "tui/…", "data/…", "model/…"},
	"cmd/daub/internal/lines":  {"cmd/daub/internal/page", "data", "model/…"},
	"cmd/daub/internal/page":   {"model/…"},
	"cmd/daub/internal/manual": {"data/atomicfile", "model"},
	"cmd/daub/internal/reply":  {"data/export", "model/…"},
	"cmd/daub/internal/term":   {},
	"cmd/daub/internal/usage":  {"model/…"},

	"cmd/daub/internal/outfile": {"cmd/daub/internal/usage", "data/atomicfile"},

	"tui": {
		"tui/ui", "tui/shelf", "tui/trial/…", "tui/compare", "tui/kitchen", "tui/acid", "tui/later", "tui/noquery",
		"model/…",
	},
	"tui/shelf":       {"tui/ui", "tui/chart", "model/…"},
	"tui/trial":       {"tui/ui", "tui/chart", "tui/glyph", "model/…"},
	"tui/trial/setup": {"tui/trial", "tui/ui", "model/…"},
	"tui/compare":     {"tui/ui", "tui/chart", "model/…"},
	"tui/kitchen":     {"tui/ui", "tui/chart", "model/…"},
	"tui/later":       {"tui/ui", "model/…"},
	"tui/acid":        {"tui/ui", "model/…"},
	"tui/ui":          {"tui/chart", "model/…"},
	"tui/chart":       {"model/printable", "model/ticks"},
	"tui/glyph":       {},
	"tui/noquery":     {},

	"data":            {"data/…", "model/…"},
	"data/export":     {"data/record", "data/tomlfile", "data/parallel", "model/…"},
	"data/picture":    {"data/drawing", "data/parallel", "model/…"},
	"data/drawing":    {},
	"data/webpage":    {"model/paper"},
	"data/record":     {"data/tomlfile", "model/…"},
	"data/tomlfile":   {"model", "model/printable"},
	"data/atomicfile": {},
	"data/parallel":   {},

	"model/handling": {"model", "model/fit", "model/bench", "model/measure"},
	"model/kitchen": {
		"model", "model/fit", "model/bench", "model/handling", "model/care", "model/repeats", "model/printable",
	},
	"model/paper":     {"model/…"},
	"model/care":      {"model", "model/fit", "model/measure", "model/repeats"},
	"model/repeats":   {"model", "model/fit", "model/bench"},
	"model/bench":     {"model", "model/fit"},
	"model/typed":     {"model", "model/measure", "model/printable"},
	"model/printable": {},
	"model/ticks":     {},
	"model/readings":  {"model", "model/fit", "model/measure", "model/bench"},
	"model":           {"model/fit", "model/measure"},
	"model/measure":   {"model/fit"},
	"model/fit":       {},

	// For tests only.
	"tui/internal/drive":      {"tui/…", "model/…"},
	"model/internal/specimen": {"model/…"},
}

func allowed(from, to string) bool {
	for _, may := range mayImport[from] {
		below, all := strings.CutSuffix(may, "/…")
		if to == may || all && (to == below || strings.HasPrefix(to, below+"/")) {
			return true
		}
	}
	return false
}

// TestArrows holds which room may import which. A new room has to be listed.
func TestArrows(t *testing.T) {
	ps := packages(t)
	require.Len(t, ps, len(mayImport), "every room stands in the list, and no other")
	for _, p := range ps {
		from := room(p.ImportPath)
		require.Contains(t, mayImport, from)
		for _, imported := range p.Imports {
			if strings.HasPrefix(imported, module) {
				assert.True(t, allowed(from, room(imported)), "%s may not import %s", from, room(imported))
				assert.NotContains(t, room(imported), "internal/drive")
				assert.NotContains(t, room(imported), "internal/specimen")
			}
		}
	}
}

// widest is the largest number of columns in a line; a tab counts as four.
const widest = 120

// TestRoomSizes holds that a folder and a file, tests too, can be taken in at a
// glance, and that no file repeats the name of its room.
func TestRoomSizes(t *testing.T) {
	for _, p := range packages(t) {
		name := filepath.Base(room(p.ImportPath))
		assert.LessOrEqual(t, len(p.GoFiles), 25, "%s is crowded", room(p.ImportPath))
		for _, file := range slices.Concat(p.GoFiles, p.TestGoFiles, p.XTestGoFiles, p.IgnoredGoFiles) {
			text, err := os.ReadFile(filepath.Join(p.Dir, file))
			require.NoError(t, err)
			assert.Less(t, strings.Count(string(text), "\n"), 500, "%s/%s is long", room(p.ImportPath), file)
			repeats := strings.HasPrefix(file, name+"_") && file != name+"_test.go"
			assert.False(t, repeats, "%s/%s repeats its room", room(p.ImportPath), file)
			n := 0
			for line := range strings.Lines(string(text)) {
				n++
				columns := utf8.RuneCountInString(strings.TrimRight(line, "\r\n")) + 3*strings.Count(line, "\t")
				assert.LessOrEqual(t, columns, widest, "%s/%s:%d", room(p.ImportPath), file, n)
			}
		}
	}
}

// Clock, files, environment and goroutines are cmd's and data's: what the
// screens and the trade say depends on what they are given alone.
func TestPureLayers(t *testing.T) {
	for _, p := range packages(t) {
		top, _, _ := strings.Cut(room(p.ImportPath), "/")
		if top != "tui" && top != "model" || strings.Contains(p.ImportPath, "/internal/") {
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
					clock := ok && x.Name == "time" && (n.Sel.Name == "Now" || n.Sel.Name == "Since" ||
						n.Sel.Name == "Until")
					assert.False(t, clock, "%s reads the clock", files.Position(n.Pos()))
				}
				return true
			})
		}
	}
}
