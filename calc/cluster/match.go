package cluster

import (
	"fmt"
	"math"
)

// Match is the closest recipe of one other size to a target.
type Match struct {
	// Duplets is the number of duplets of the other size in the cluster.
	Duplets int `json:"duplets"`
	// BallMM is the ball of the replacing cluster.
	BallMM float64 `json:"ball_mm"`
	// TargetMM is the ball of the replaced recipe.
	TargetMM float64 `json:"target_mm"`
	// ClosesPct is how much of the size difference the match makes up, 0 to 100, compared with the other size duplet for
	// duplet. It is 100 when there was no difference.
	ClosesPct float64 `json:"closes_pct"`
}

// CommonMaxDuplets is the number of duplets that most people can twist into one cluster (common practice, no source).
const CommonMaxDuplets = 4

// MatchSize returns the number of duplets of one other size, up to maxDuplets, with the ball closest to the target's.
// Fewer duplets win a tie. It ignores the count in with and uses only the Model of the push. Errors wrap ErrRecipe.
func MatchSize(target Recipe, with Part, maxDuplets int, p Push) (Match, error) {
	if err := target.Check(); err != nil {
		return Match{}, err
	}
	_, match, err := nearest(target, nil, target.Duplets(), with, maxDuplets, p)
	return match, err
}

// Substitute replaces the target's balloons of the lacking size with the number of duplets of another size that gives
// the closest ball. The whole cluster has at most maxDuplets duplets. The match counts the replacing duplets. Errors
// wrap ErrRecipe, also if the target has none of the lacking size.
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
	return nearest(target, kept, lacking, with, maxDuplets, StandardPush())
}

// nearest tries every number of duplets of the other size beside the remaining ones.
func nearest(target, kept Recipe, lacking int, with Part, maxDuplets int, p Push) (Recipe, Match, error) {
	most := min(maxDuplets, MaxDuplets) - kept.Duplets()
	if most < 1 {
		return nil, Match{}, fmt.Errorf("at most %d duplets in a cluster leaves no room beside %d kept: %w", maxDuplets,
			kept.Duplets(), ErrRecipe)
	}
	goal := Measure(target, p).BallSeenMM
	var best Recipe
	var match Match
	for duplets := 1; duplets <= most; duplets++ {
		tried := withDuplets(kept, with, duplets)
		if err := tried.Check(); err != nil {
			return nil, Match{}, err
		}
		ball := Measure(tried, p).BallSeenMM
		if best == nil || math.Abs(ball-goal) < math.Abs(match.BallMM-goal)-matchToleranceMM {
			best, match = tried, Match{Duplets: duplets, BallMM: ball, TargetMM: goal}
		}
	}
	match.ClosesPct = closes(goal, Measure(withDuplets(kept, with, lacking), p).BallSeenMM, match.BallMM)
	return best, match, nil
}

// matchToleranceMM is a difference in ball that nobody can see. Within it the cluster with fewer duplets wins.
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
