package look

import (
	"garlandry/calc/cluster"
	"garlandry/calc/picture"
)

// rests holds how clusters rest, for all jobs: a change of a piece mostly keeps its recipe.
var rests picture.Rests

// Free returns what [picture.Free] does, computed once for each recipe. Nobody may change it.
func Free(r cluster.Recipe) []picture.Balloon { return rests.Free(r) }
