package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// bigShelf is a shelf of n profiles made from the light clay's.
func bigShelf(b *testing.B, n int) host {
	h := testHost(b)
	src, err := os.ReadFile(lightClay)
	require.NoError(b, err)
	dir := filepath.Join(h.shelf, "powders")
	require.NoError(b, os.MkdirAll(dir, 0o755))
	for i := range n {
		text := strings.Replace(string(src), "Light white clay", fmt.Sprintf("Clay %05d", i), 1)
		require.NoError(b, os.WriteFile(filepath.Join(dir, fmt.Sprintf("clay-%05d.toml", i)), []byte(text), 0o644))
	}
	return h
}

// BenchmarkList lists a shelf whose files have no ratio table, then one whose
// tables can be relied on.
func BenchmarkList(b *testing.B) {
	for _, n := range []int{1000, 10000} {
		h := bigShelf(b, n)
		list := func(b *testing.B) {
			for b.Loop() {
				got := daub(h, "list")
				require.Zero(b, got.code, got.err)
			}
		}
		b.Run(fmt.Sprint("bare/", n), list)
		files, err := filepath.Glob(filepath.Join(h.shelf, "powders", "*.toml"))
		require.NoError(b, err)
		require.Zero(b, daub(h, append([]string{"check", "--renew"}, files...)...).code)
		b.Run(fmt.Sprint("renewed/", n), list)
	}
}

// BenchmarkBigShelf shows that time grows in proportion to the shelf.
func BenchmarkBigShelf(b *testing.B) {
	for _, n := range []int{500, 1000, 5000} {
		h := bigShelf(b, n)
		for _, args := range [][]string{
			{"list", "--json"},
			{"compare", "clay-00001", "clay-00002"},
			{"export", "--all", "--to", "csv", "--level", "5"},
		} {
			b.Run(fmt.Sprintf("%s/%d", args[0], n), func(b *testing.B) {
				for b.Loop() {
					got := daub(h, args...)
					require.Zero(b, got.code, got.err)
				}
			})
		}
	}
}
