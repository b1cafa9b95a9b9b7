// Package manual writes the commands' manual pages in roff, the language of man,
// from the same definitions as their help. The library's own generator costs every
// command 2 ms at the start. Here are also the help topics, which are pages of
// their own, and the scripts for completion. It knows cobra, and the scale of
// model.
package manual

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// nameOf returns a page's name, as "daub-recipe-show".
func nameOf(cmd *cobra.Command) string { return strings.ReplaceAll(cmd.CommandPath(), " ", "-") }

// withPages returns a command and all below it that have a page.
func withPages(cmd *cobra.Command) []*cobra.Command {
	all := []*cobra.Command{cmd}
	for _, c := range cmd.Commands() {
		if !c.Hidden && c.Name() != "help" {
			all = append(all, withPages(c)...)
		}
	}
	return all
}

// pageOf returns the manual page of a command or help topic, for a version and its
// day.
func pageOf(cmd *cobra.Command, version, day string) string {
	cmd.InitDefaultHelpFlag()
	var p page
	p.add(".TH %s 1 %s %s", quoted(strings.ToUpper(nameOf(cmd))), quoted(day), quoted("daub "+version))
	p.add(".SH NAME")
	p.add(`%s \- %s`, text(nameOf(cmd)), text(strings.ToLower(cmd.Short[:1])+cmd.Short[1:]))
	if cmd.Runnable() {
		p.add(".SH SYNOPSIS")
		p.add(`\fB%s\fR`, text(cmd.UseLine()))
	}
	if about := cmd.Long; about != "" {
		p.add(".SH DESCRIPTION")
		p.asIs(about)
	}
	if cmd.Runnable() {
		p.flags("OPTIONS", cmd.NonInheritedFlags())
		p.flags("OPTIONS OF EVERY COMMAND", cmd.InheritedFlags())
	}
	if cmd.Example != "" {
		p.add(".SH EXAMPLES")
		p.asIs(cmd.Example)
	}
	p.related(cmd)
	return p.String()
}

type page struct{ strings.Builder }

func (p *page) add(format string, args ...any) { _, _ = fmt.Fprintf(p, format+"\n", args...) }

// asIs keeps the lines of text that is laid out for the terminal already.
func (p *page) asIs(lines string) {
	p.add(".nf")
	for line := range strings.Lines(strings.TrimRight(lines, "\n") + "\n") {
		p.add("%s", text(strings.TrimRight(line, "\n")))
	}
	p.add(".fi")
}

func (p *page) flags(title string, flags *pflag.FlagSet) {
	if !flags.HasAvailableFlags() {
		return
	}
	p.add(".SH %s", title)
	flags.VisitAll(func(f *pflag.Flag) {
		if f.Hidden {
			return
		}
		name, usage := pflag.UnquoteUsage(f)
		names := `\fB` + text("--"+f.Name) + `\fR`
		if f.Shorthand != "" {
			names = `\fB` + text("-"+f.Shorthand) + `\fR, ` + names
		}
		if name != "" {
			names += ` \fI` + text(name) + `\fR`
		}
		p.add(".TP")
		p.add("%s", names)
		p.add("%s", text(usage))
	})
}

func (p *page) related(cmd *cobra.Command) {
	var names []string
	if cmd.HasParent() {
		names = append(names, nameOf(cmd.Parent()))
	}
	for _, c := range cmd.Commands() {
		if !c.Hidden && c.Name() != "help" {
			names = append(names, nameOf(c))
		}
	}
	for i, name := range names {
		names[i] = `\fB` + text(name) + `\fR(1)`
	}
	p.add(".SH SEE ALSO")
	p.add("%s", strings.Join(names, ",\n"))
}

// text escapes a line so that roff shows it unchanged.
func text(line string) string {
	line = strings.NewReplacer(`\`, `\e`, "-", `\-`, "'", `\(aq`, "`", `\(ga`).Replace(line)
	if strings.HasPrefix(line, ".") {
		line = `\&` + line
	}
	return line
}

func quoted(word string) string { return `"` + text(strings.ReplaceAll(word, `"`, "")) + `"` }
