package drive

// Situations are the key sequences that lead to every screen and mode.
var Situations = map[string]string{
	"shelf":         "",
	"filter":        "/",
	"set-up":        "n",
	"set-up weigh":  "t",
	"bench add":     "enter",
	"bench look":    "enter enter",
	"bench liquid":  "enter l",
	"bench grams":   "enter g",
	"bench marks":   "enter m",
	"bench mend":    "enter e",
	"bench reason":  "enter x",
	"bench scale":   "enter =",
	"bench removed": "enter t",
	"bench weigh":   "enter w",
	"bench note":    "enter n",
	"bench sure":    "enter f",
	"bench change":  "enter c",
	"bench more":    "enter i",
	"bench pot":     "enter p",
	"bench own":     "enter right up",
	"bench early":   "enter enter 3",
	"bench mended":  "enter e insert down",
	"result":        "enter f enter",
	"result reason": "enter f enter x",
	"help":          "enter ?",
	"shelf marked":  "space",
	"shelf export":  "e",
	"result export": "enter f enter e",
	"compare":       ToCompare,
	"compare text":  ToCompare + " pgdown",
	"compare file":  ToCompare + " e",
	"compare swap":  ToCompare + " s",
	"kitchen":       "k",
	"batch":         ToBatch,
	"batch done":    ToBatch + " down down 120",
	"batch name":    ToBatch + " down down 120 ctrl+s",
	"swap":          "k down enter",
	"mix":           "k down down enter",
	"mix done":      "down space down space k down down enter",
	"spoons":        "k down down down enter",
	"recipes":       "k up enter",
	"recipe":        ToRecipe,
	"recipe total":  ToRecipe + " t",
	"recipe name":   ToRecipe + " n",
	"recipe swap":   ToRecipe + " s up up",
}

// Ways to the places that are reached over the shelf of pantry.
const (
	ToCompare = "down space down space c"
	ToBatch   = "down k enter"
	ToRecipe  = "k up enter enter"
)
