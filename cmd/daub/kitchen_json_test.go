package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The keys of the kitchen's JSON, held by goldens as in TestJSONKeys.
func TestKitchenJSONKeys(t *testing.T) {
	h := kitchenShelf(t)
	require.Zero(t, daub(h, "batch", "light-white-clay", "--total", "100", "--extra", "honey=3%", "--save",
		"Mask").code)
	for name, args := range map[string]string{
		"compare":             "compare|light-white-clay|heavy-swelling-clay",
		"compare-refused":     "compare|light-white-clay|clay-in-milk|new-flour-a",
		"swap":                "swap|light-white-clay|heavy-swelling-clay|--powder|20|--liquid|40",
		"swap-ranked":         "swap|light-white-clay",
		"swap-alone-refused":  "swap|clay-in-milk",
		"swap-refused":        "swap|light-white-clay|clay-in-milk|--powder|20",
		"batch":               "batch|light-white-clay|--jar|9|--extra|honey=3%|--save|Other",
		"batch-refused":       "batch|new-flour-a|--total|20",
		"batch-weighed":       "batch|chalk|--total|20",
		"mix":                 "mix|light-white-clay=60|heavy-swelling-clay=40|--trial",
		"spoons":              "spoons|light-white-clay|20",
		"spoons-back":         "spoons|light-white-clay|2 x 1 tsp",
		"recipe-list":         "recipe|list",
		"recipe-show":         "recipe|show|mask",
		"recipe-scale":        "recipe|scale|mask|--total|20|--save|Small",
		"recipe-swap":         "recipe|swap|mask|light-white-clay|heavy-swelling-clay",
		"recipe-swap-refused": "recipe|swap|mask|light-white-clay|clay-in-milk",
		"recipe-card":         "recipe|card|mask",
		"recipe-edit":         "recipe|edit|mask|--extra|oat oil=2%|--portions|4|--order|water",
		"recipe-rename":       "recipe|rename|mask|Winter mask",
		"export-file":         "export|chalk|-o|" + filepath.Join(h.temp, "x.csv"),
		"picture":             "picture|chalk|-o|" + filepath.Join(h.temp, "x.svg"),
	} {
		t.Run(name, func(t *testing.T) {
			h := h
			if strings.Contains(name, "list") || strings.Contains(args, "--save") ||
				strings.Contains(args, "--trial") || strings.Contains(args, "edit") ||
				strings.Contains(args, "rename") {
				h = kitchenShelf(t) // each alone on its shelf, so that the order does not matter
				require.Zero(t, daub(h, "batch", "light-white-clay", "--total", "100", "--extra", "honey=3%",
					"--save", "Mask").code)
			}
			got := daub(h, append(spaced(args), "--json")...)
			refused := strings.HasSuffix(name, "-refused") && !strings.HasPrefix(name, "compare")
			require.Equal(t, map[bool]int{true: exitCannot, false: exitAnswered}[refused], got.code, got.err)
			var v any
			require.NoError(t, json.Unmarshal([]byte(got.out), &v))
			golden(t, "keys-"+name+".txt", keys(v))
		})
	}
}
