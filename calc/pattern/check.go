package pattern

// Reasons why a base cannot be laid, for errors.Is.
var (
	ErrClusters error = reason("clusters must be a multiple of the strands, with at most 1,000,000 balloons in all")
	ErrSize     error = reason("a size needs 1 to 250 balloons in a cluster and at most 100 colours")
	ErrSum      error = reason("the colours of a size must sum to its balloons")
	ErrRule     error = reason("unknown rule")
	ErrKinds    error = reason("kinds of cluster: 2 to 6")
)

// reason is a constant error.
type reason string

func (r reason) Error() string { return string(r) }

func check(b Base) error {
	switch b.Rule {
	case Scattered, Spiral, Rings, Bands, Fade, Single:
	default:
		return ErrRule
	}
	if b.MostKinds < 2 || b.MostKinds > 6 {
		return ErrKinds
	}
	if b.Clusters < 0 || b.Clusters > MostBalloons || b.Clusters%b.Strands != 0 {
		return ErrClusters
	}
	balloons := 0
	for _, size := range b.Sizes {
		if size.Each < 1 || size.Each > MostEach || len(size.Colours) > MostColours {
			return ErrSize
		}
		sum := size.Each * b.Clusters
		if balloons += sum; balloons > MostBalloons {
			return ErrClusters
		}
		for _, n := range size.Colours {
			if n < 0 || n > sum {
				return ErrSum
			}
			sum -= n
		}
		if sum != 0 {
			return ErrSum
		}
	}
	return nil
}
