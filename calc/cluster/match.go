package cluster

import (
	"fmt"
	"math"
)

// Match is the closest recipe of one other size to a target.
type Match struct {
	// Duplets is the number of duplets of the other size in the cluster.
	Duplets int `json:"duplets"`
	// SeenMM is the size that the replacing cluster seems to have, see [Figures.BallSeenMM].
	SeenMM float64 `json:"ball_seen_mm"`
	// TargetMM is the size that the cluster of the replaced recipe seems to have.
	TargetMM float64 `json:"target_seen_mm"`
	// ClosesPct is how much of the size difference the match makes up, 0 to 100, compared with the other size duplet for
	// duplet. It is 100 when there was no difference.
	ClosesPct float64 `json:"closes_pct"`
}

// CommonMaxDuplets is the number of duplets that most people can twist into one cluster (common practice, no source).
const CommonMaxDuplets = 4

// MatchSize returns the number of duplets of one other size, up to maxDuplets, whose cluster seems as large as the
// target's, or nearly. Fewer duplets win a tie. It ignores the count in with. Errors wrap ErrRecipe.
func MatchSize(target Recipe, with Part, maxDuplets int) (Match, error) {
	if err := target.Check(); err != nil {
		return Match{}, err
	}
	_, match, err := nearest(target, nil, target.Duplets(), with, maxDuplets)
	return match, err
}

// Substitute replaces the target's balloons of the lacking size with the number of duplets of another size whose
// cluster seems as large, or nearly. The whole cluster has at most maxDuplets duplets. The match counts the replacing
// duplets. Errors wrap ErrRecipe, also if the target has none of the lacking size.
func Substitute(target Recipe, lackingSizeIn int, with Part, maxDuplets int) (Recipe, Match, error) {
	if err := target.Check(); err != nil {
		return nil, Match{}, err
	}
	var kept Recipe
	lacking := 0
	for _, part := range target {
		if part.SizeIn == lackingSizeIn {
			lacking += part.Duplets
			continue
		}
		kept = append(kept, part)
	}
	if lacking == 0 {
		return nil, Match{}, fmt.Errorf("recipe %s has no %d-inch balloon to replace: %w", target, lackingSizeIn, ErrRecipe)
	}
	return nearest(target, kept, lacking, with, maxDuplets)
}

// nearest tries every number of duplets of the other size beside the remaining ones.
func nearest(target, kept Recipe, lacking int, with Part, maxDuplets int) (Recipe, Match, error) {
	most := min(maxDuplets, MaxDuplets) - kept.Duplets()
	if most < 1 {
		return nil, Match{}, fmt.Errorf("at most %d duplets in a cluster leaves no room beside %d kept: %w", maxDuplets,
			kept.Duplets(), ErrRecipe)
	}
	goal := BallSeenMM(target)
	var best Recipe
	var match Match
	for duplets := 1; duplets <= most; duplets++ {
		tried := withDuplets(kept, with, duplets)
		if err := tried.Check(); err != nil {
			return nil, Match{}, err
		}
		seen := BallSeenMM(tried)
		if best == nil || math.Abs(seen-goal) < math.Abs(match.SeenMM-goal)-matchToleranceMM {
			best, match = tried, Match{Duplets: duplets, SeenMM: seen, TargetMM: goal}
		}
	}
	match.ClosesPct = closes(goal, BallSeenMM(withDuplets(kept, with, lacking)), match.SeenMM)
	return best, match, nil
}

// matchToleranceMM is a difference in size that nobody can see. Within it the cluster with fewer duplets wins.
const matchToleranceMM = 0.01

func withDuplets(kept Recipe, with Part, duplets int) Recipe {
	with.Duplets = duplets
	return append(append(Recipe{}, kept...), with).Normal()
}

// closes returns the share of the gap between duplet for duplet and the goal that the match makes up, in percent.
func closes(goal, plain, matched float64) float64 {
	gap := math.Abs(goal - plain)
	if gap <= matchToleranceMM {
		return 100
	}
	return 100 * max(0, 1-math.Abs(goal-matched)/gap)
}
