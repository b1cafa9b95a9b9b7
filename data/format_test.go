package data

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"daub.example/daub/data/record"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// formatExamples are the blocks of FORMAT.md that are indented by four blanks, without the indent.
func formatExamples(t *testing.T) []string {
	page, err := os.ReadFile("FORMAT.md")
	require.NoError(t, err)
	var blocks []string
	for _, part := range strings.Split("\n"+string(page), "\n\n") {
		if !strings.HasPrefix(strings.TrimLeft(part, "\n"), "    ") {
			blocks = append(blocks, "")
			continue
		}
		if len(blocks) == 0 {
			blocks = append(blocks, "")
		}
		blocks[len(blocks)-1] += strings.ReplaceAll("\n"+part, "\n    ", "\n") + "\n"
	}
	return slices.DeleteFunc(blocks, func(block string) bool { return block == "" })
}

// Each example of FORMAT.md is a file that daub reads, writes again with all
// comments, and reads as the same.
func TestExamplesOfTheFormatPageAreFiles(t *testing.T) {
	kinds := map[string]int{}
	for _, text := range formatExamples(t) {
		doc, problems := tomlfile.Parse([]byte(text))
		require.Empty(t, problems, text)
		var written []byte
		var err error
		switch {
		case doc.Tree["spoon"] != nil:
			kinds["spoons"]++
			own, doc, problems := record.ReadSpoons([]byte(text))
			require.Empty(t, problems, text)
			written, err = record.WriteSpoons(own, doc)
			require.NoError(t, err)
			again, _, problems := record.ReadSpoons(written)
			require.Empty(t, problems, "%s", written)
			assert.Equal(t, own, again)
		case doc.Tree["recipe"] != nil:
			kinds["recipe"]++
			r, doc, problems := record.ReadRecipe([]byte(text))
			require.Empty(t, problems, text)
			written, err = record.WriteRecipe(r, doc)
			require.NoError(t, err)
			again, _, problems := record.ReadRecipe(written)
			require.Empty(t, problems, "%s", written)
			assert.Equal(t, r, again)
		default:
			kinds["profile"]++
			f, doc, problems := record.ReadProfile([]byte(text), nil)
			require.Empty(t, problems, text)
			assert.Empty(t, keptIn(f.Profile, doc), "of another shape")
			written, err = record.WriteProfile(f.Profile, record.RatioRows(f.Profile, nil), nil, doc)
			require.NoError(t, err)
			again, _, problems := record.ReadProfile(written, nil)
			require.Empty(t, problems, "%s", written)
			assert.Equal(t, f.Profile, again.Profile)
		}
		assertComments(t, []byte(text), written)
	}
	assert.Equal(t, map[string]int{"profile": 2, "recipe": 1, "spoons": 1}, kinds)
}

// Every key that a file may have stands in an example of FORMAT.md.
func TestExamplesOfTheFormatPageHaveEveryKey(t *testing.T) {
	shown := map[string]bool{}
	for _, text := range formatExamples(t) {
		doc, problems := tomlfile.Parse([]byte(text))
		require.Empty(t, problems, text)
		root := "profileFields"
		if doc.Tree["recipe"] != nil {
			root = "recipeFields"
		} else if doc.Tree["spoon"] != nil {
			root = "spoonsFields"
		}
		keysIn(root, doc.Tree, shown)
	}
	tables := fieldTables(t)
	var look func(path, table string)
	look = func(path, table string) {
		require.NotEmpty(t, tables[table], table)
		for key, inner := range tables[table] {
			assert.True(t, shown[path+"."+key], "no example has the key %s of %s", key, path)
			if inner != "" {
				look(path+"."+key, inner)
			}
		}
	}
	for _, root := range []string{"profileFields", "recipeFields", "spoonsFields"} {
		look(root, root)
	}
}

// keysIn notes the paths of all keys in a table and in those within it.
func keysIn(path string, table map[string]any, into map[string]bool) {
	for key, value := range table {
		into[path+"."+key] = true
		switch value := value.(type) {
		case map[string]any:
			keysIn(path+"."+key, value, into)
		case []map[string]any:
			for _, one := range value {
				keysIn(path+"."+key, one, into)
			}
		}
	}
}

// fieldTables lists, for each list of fields in the source of data/record, its
// keys, and for a key that is a table the name of that table's list.
func fieldTables(t *testing.T) map[string]map[string]string {
	sources, err := os.ReadDir("record")
	require.NoError(t, err)
	tables := map[string]map[string]string{}
	for _, source := range sources {
		if strings.HasSuffix(source.Name(), "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), "record/"+source.Name(), nil, 0)
		require.NoError(t, err)
		for name, object := range file.Scope.Objects {
			if !strings.HasSuffix(name, "Fields") {
				continue
			}
			tables[name] = map[string]string{}
			ast.Inspect(object.Decl.(ast.Node), func(n ast.Node) bool {
				call, ok := n.(*ast.CallExpr)
				if !ok || len(call.Args) < 3 {
					return true
				}
				if first, ok := call.Args[0].(*ast.BasicLit); ok && first.Kind == token.STRING {
					key, _ := strconv.Unquote(first.Value)
					last, _ := call.Args[len(call.Args)-1].(*ast.Ident)
					tables[name][key] = ""
					if last != nil && strings.HasSuffix(last.Name, "Fields") {
						tables[name][key] = last.Name
					}
				}
				return true
			})
		}
	}
	return tables
}

// FORMAT.md has every word that may stand for a family, a mark or a spoon.
func TestFormatPageHasEveryWord(t *testing.T) {
	page, err := os.ReadFile("FORMAT.md")
	require.NoError(t, err)
	words := slices.Concat(model.Marks(), model.StandardSpoonNames())
	for _, f := range model.Families() {
		words = append(words, string(f))
	}
	for _, word := range words {
		assert.True(t, strings.Contains(string(page), word), "FORMAT.md does not name %q", word)
	}
}
