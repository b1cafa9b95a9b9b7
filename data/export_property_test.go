package data

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"daub.example/daub/data/export"
	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Any profiles export to anything, twice the same, and every number is one.
func TestAnyProfileExports(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		entries := []export.Powder{{Profile: genProfile(t)}, {Profile: genProfile(t)}}
		level := rapid.SampledFrom([]float64{0, 1, 4.5, 6}).Draw(t, "level")
		for _, format := range export.Formats() {
			text := exportedAs(t, format, entries, nil, level)
			require.Equal(t, text, exportedAs(t, format, entries, nil, level))
			switch format {
			case "json":
				require.True(t, json.Valid(text))
			case "toml":
				var tree map[string]any
				_, err := toml.Decode(string(text), &tree)
				require.NoError(t, err, "%s", text)
				requireFinite(t, tree)
			case "csv":
				rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
				require.NoError(t, err)
				for _, row := range rows[1:] {
					for _, cell := range row[13:] {
						v, err := strconv.ParseFloat(cell, 64)
						require.True(t, cell == "" || err == nil && !math.IsNaN(v) && !math.IsInf(v, 0), cell)
					}
				}
			case "md":
				require.NotContains(t, string(text), "+Inf")
				table, _, _ := strings.Cut(string(text), "\n\n")
				for _, line := range strings.Split(table, "\n") {
					require.Equal(t, 9, strings.Count(strings.ReplaceAll(line, `\|`, ""), "|"), "%q", line)
				}
			}
		}
	})
}

func requireFinite(t require.TestingT, v any) {
	switch v := v.(type) {
	case float64:
		require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
	case map[string]any:
		for _, in := range v {
			requireFinite(t, in)
		}
	case []map[string]any:
		for _, in := range v {
			requireFinite(t, in)
		}
	}
}

func BenchmarkExport(b *testing.B) {
	entries := make([]export.Powder, 1000)
	for i := range entries {
		entries[i] = export.Powder{Slug: fmt.Sprint("p", i), Profile: benchProfile(1)}
	}
	for _, format := range export.Formats() {
		b.Run(format+" 1000 profiles", func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				exportedAs(b, format, entries, nil, 5)
			}
		})
	}
}
