package ui

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	tea "github.com/charmbracelet/bubbletea"
)

// askFile asks for a file's name and writes the file. base is the name offered,
// endings are those allowed, the usual one first. If only an ending is typed, it is
// added to base.
func (p *Prompt) askFile(base string, endings []string, write func(File) (string, error)) {
	fits := func(name string) bool {
		return slices.ContainsFunc(endings, func(e string) bool {
			return strings.HasSuffix(strings.ToLower(name), e) && len(name) > len(e)
		})
	}
	p.Ask(Question{
		Title: "Write to a file, its name ending in " + strings.Join(endings, " "), Yes: "write it",
		Answer: func(name string) (tea.Cmd, error) {
			if ending := "." + strings.TrimPrefix(strings.ToLower(name), "."); slices.Contains(endings, ending) {
				name = base + ending
			}
			if !fits(name) {
				return nil, fmt.Errorf("%q does not say what to write: end the name in one of %s",
					name, strings.Join(endings, " "))
			}
			file := File{Name: name, Over: name == p.exists}
			p.Say("writing…")
			return func() tea.Msg {
				path, err := write(file)
				return Filed{name: name, path: path, Err: err}
			}, nil
		},
	}, base+endings[0])
}

// exportEndings are the file endings that profiles can be exported to.
var exportEndings = []string{".csv", ".toml", ".json", ".md", ".svg", ".png", ".pdf"}

// AskExport asks for a file and exports profiles to it; level 0 means all levels.
func (p *Prompt) AskExport(deps Deps, entries []model.Entry, level float64) {
	name := "powders"
	if len(entries) == 1 {
		name = fileName(entries[0].Profile.Powder.Name)
	}
	own := slices.Clone(entries)
	for i := range own {
		own[i].Profile = own[i].Profile.Clone()
	}
	p.askFile(name, exportEndings, func(f File) (string, error) { return deps.Export(own, level, f) })
}

// AskCard asks for a file and writes the recipe's card to it.
func (p *Prompt) AskCard(deps Deps, r model.Recipe, profiles []model.Profile) {
	p.askFile(fileName(r.Name), []string{".html", ".md", ".txt"}, func(f File) (string, error) {
		return deps.WriteCard(r, profiles, f)
	})
}

// SaveRecipe writes a recipe, or returns why it is not valid.
func (p *Prompt) SaveRecipe(deps Deps, entry model.RecipeEntry) (tea.Cmd, error) {
	if problems := entry.Recipe.Validate(); len(problems) > 0 {
		return nil, problems[0]
	}
	p.busy, p.again = true, false
	p.Say("saving…")
	return func() tea.Msg {
		stands, err := deps.SaveRecipe(entry)
		return RecipeSaved{stands, err}
	}, nil
}

// CopyText copies text to the clipboard; what names it in a few words.
func CopyText(deps Deps, what, text string) tea.Cmd {
	return func() tea.Msg { return copied{what, deps.Copy(text)} }
}

// fileName turns a title into a plain file name.
func fileName(title string) string {
	name := strings.Join(strings.FieldsFunc(strings.ToLower(title), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9')
	}), "-")
	if name == "" {
		return "daub"
	}
	return name
}
