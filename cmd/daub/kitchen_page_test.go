package main

import (
	"slices"
	"strings"
	"testing"

	"daub.example/daub/cmd/daub/internal/page"
	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"
)

func TestKitchenPagesAreEightyCellsAndASCIIOnRequest(t *testing.T) {
	h := kitchenShelf(t)
	require.Zero(t, daub(h, "batch", "light-white-clay", "--total", "100", "--extra", "honey=3%", "--save",
		"Mask").code)
	lines := []string{
		"compare|light-white-clay|heavy-swelling-clay|chalk|clay-in-milk|new-flour-a",
		"swap|light-white-clay|heavy-swelling-clay|--powder|20",
		"swap|light-white-clay|clay-in-milk|--powder|20",
		"batch|light-white-clay|--total|100|--jar|60|--extra|honey=3%|--allowance|5%",
		"mix|light-white-clay=60|heavy-swelling-clay=40|--total|100",
		"spoons|light-white-clay|20",
		"recipe|list",
		"recipe|show|mask",
		"recipe|scale|mask|--total|10",
		"recipe|swap|mask|light-white-clay|heavy-swelling-clay",
	}
	for _, c := range []string{
		"compare", "swap", "batch", "mix", "spoons", "recipe", "recipe|scale", "recipe|swap",
		"export", "picture", "trial",
	} {
		lines = append(lines, c+"|--help")
	}
	for _, args := range lines {
		got := daub(h, spaced(args)...)
		require.Contains(t, []int{exitAnswered, exitCannot}, got.code, got.err)
		for line := range strings.Lines(got.out) {
			if !strings.Contains(line, h.shelf) { // a path is never broken
				require.LessOrEqual(t, ansi.StringWidth(strings.TrimSuffix(line, "\n")), page.Width, "%v: %s", args,
					line)
			}
		}
		for _, r := range daub(h, append(spaced(args), "--ascii")...).out {
			require.Less(t, r, rune(0x80), "%v", args)
		}
	}
}

func TestKitchenCompletion(t *testing.T) {
	h := kitchenShelf(t)
	require.Zero(t, daub(h, "batch", "light-white-clay", "--total", "100", "--save", "Face mask").code)
	complete := func(args string) []string {
		got := daub(h, append([]string{"__complete"}, spaced(args)...)...)
		require.Zero(t, got.code, got.err)
		return strings.Split(strings.TrimSpace(got.out), "\n")
	}
	require.Equal(t, []string{"heavy-swelling-clay\tHeavy swelling clay", ":4"}, complete("compare|light-white-clay|h"))
	require.NotContains(t, complete("compare|light-white-clay|"), "light-white-clay\tLight white clay", "each once")
	require.Equal(t, []string{":4"}, complete("swap|a|b|"))
	require.Equal(t, []string{"light-white-clay=\tLight white clay", ":6"}, complete("mix|chalk=1|li"))
	require.Equal(t, []string{"face-mask\tFace mask", ":4"}, complete("recipe|show|"))
	require.Equal(t, []string{"chalk\tChalk", ":4"}, complete("recipe|swap|face-mask|light-white-clay|ch"))
	require.Equal(t, []string{":4"}, complete("recipe|card|face-mask|"))
	require.Equal(t, []string{"toml", "csv", "json", "md"}, complete("export|--to|")[:4])
	require.Equal(t, []string{"svg", "png", "pdf", ":8"}, complete("picture|light-white-clay|-o|"))
	require.Equal(t, []string{"liquid", "powder", "total"}, complete("swap|--keep|")[:3])
	require.True(t, slices.Contains(complete("spoons|chalk|--spoons|"), "1/8 tsp"))
}
