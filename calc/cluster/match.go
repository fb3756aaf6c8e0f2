package cluster

import (
	"fmt"
	"math"
)

// Match is the recipe of one other size that comes nearest to a target.
type Match struct {
	// Duplets is how many duplets of the other size the cluster gets in all.
	Duplets int `json:"duplets"`
	// BallMM is the ball of the cluster that stands in.
	BallMM float64 `json:"ball_mm"`
	// TargetMM is the ball of the recipe it stands in for.
	TargetMM float64 `json:"target_mm"`
	// ClosesPct is how much of the difference is closed, 0 to 100, compared with
	// putting in the other size duplet for duplet; 100 when there was none.
	ClosesPct float64 `json:"closes_pct"`
}

// CommonMaxDuplets is how many duplets most hands can twist into one cluster
// (common practice, no source).
const CommonMaxDuplets = 4

// MatchSize finds how many duplets of one other size, up to maxDuplets, make the
// ball nearest to the target's; the fewer duplets on a tie. The count in with is
// not used, and of the push only its Model. Errors wrap ErrRecipe.
func MatchSize(target Recipe, with Part, maxDuplets int, p Push) (Match, error) {
	if err := target.Check(); err != nil {
		return Match{}, err
	}
	_, match, err := nearest(target, nil, target.Duplets(), with, maxDuplets, p)
	return match, err
}

// Substitute replaces the target's balloons of the lacking size with duplets of
// another size so that the ball comes nearest, with at most maxDuplets duplets
// in the whole cluster. The match counts the duplets put in. Errors wrap
// ErrRecipe, also when the target has none of the lacking size.
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

// nearest tries every count of duplets of the other size beside what is kept.
func nearest(target, kept Recipe, lacking int, with Part, maxDuplets int, p Push) (Recipe, Match, error) {
	most := min(maxDuplets, MaxDuplets) - kept.Duplets()
	if most < 1 {
		return nil, Match{}, fmt.Errorf("at most %d duplets in a cluster leaves no room beside %d kept: %w", maxDuplets,
			kept.Duplets(), ErrRecipe)
	}
	goal := Measure(target, p).BallMM
	var best Recipe
	var match Match
	for duplets := 1; duplets <= most; duplets++ {
		tried := withDuplets(kept, with, duplets)
		if err := tried.Check(); err != nil {
			return nil, Match{}, err
		}
		ball := Measure(tried, p).BallMM
		if best == nil || math.Abs(ball-goal) < math.Abs(match.BallMM-goal)-matchToleranceMM {
			best, match = tried, Match{Duplets: duplets, BallMM: ball, TargetMM: goal}
		}
	}
	match.ClosesPct = closes(goal, Measure(withDuplets(kept, with, lacking), p).BallMM, match.BallMM)
	return best, match, nil
}

// matchToleranceMM is the difference in ball that no eye sees: within it the
// cluster with fewer duplets wins, the same on every machine.
const matchToleranceMM = 0.01

func withDuplets(kept Recipe, with Part, duplets int) Recipe {
	with.Duplets = duplets
	return append(append(Recipe{}, kept...), with).Normal()
}

// closes is the share of the gap between duplet-for-duplet and the goal that
// the match takes away, in percent.
func closes(goal, plain, matched float64) float64 {
	gap := math.Abs(goal - plain)
	if gap <= matchToleranceMM {
		return 100
	}
	return 100 * max(0, 1-math.Abs(goal-matched)/gap)
}
