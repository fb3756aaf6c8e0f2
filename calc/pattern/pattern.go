// Package pattern decides which colours go into which cluster of a base, and in which order the clusters stand.
//
// The plan has fixed how many balloons of each size and colour all clusters take together. Every rule uses exactly
// those, makes few kinds of cluster where it can, and is the same on every machine: it computes in whole numbers only.
//
// The package knows no geometry, no names of colours and no recipes. Start at [Lay].
package pattern

// Rule is how the colours run through a base. Spiral, layers, blocks, stripes and ombre are words of the trade.
type Rule string

// The rules.
const (
	Scattered Rule = "scattered" // mixed clusters of few kinds, like colours apart
	Spiral    Rule = "spiral"    // a colour keeps its place in every cluster, so that it winds round the base
	Rings     Rule = "rings"     // one colour a layer, in turn
	Bands     Rule = "bands"     // one block of each colour along the base
	Fade      Rule = "fade"      // one colour into the next along the base (ombre)
	Single    Rule = "single"    // one colour a cluster, like colours apart
)

// Limits of a base.
const (
	MostEach     = 250       // balloons of one size in a cluster
	MostBalloons = 1_000_000 // balloons of a base
	MostColours  = 100       // colours of a size
	defaultKinds = 4
)

// Size is the balloons of one size in every cluster of a recipe. Colour j is the same colour in all sizes.
type Size struct {
	Each    int   // balloons of this size in one cluster, 1 to MostEach
	Colours []int // how many of each colour in all clusters together; they sum to Each times the clusters
}

// Base is a number of equal clusters on one or more strands of equal length: columns, or the strips of a wall.
type Base struct {
	Clusters  int  // a multiple of Strands
	Strands   int  // 0 means 1
	Joined    bool // neighbouring strands touch, as in a wall
	Sizes     []Size
	Rule      Rule
	MostKinds int // kinds of cluster wanted by Scattered, 2 to 6; 0 means 4
}

// Kind is a set of colours for one cluster.
type Kind struct {
	Of    [][]int // balloons of each colour, by size
	Count int     // clusters of this kind
	Odd   bool    // takes what is left over: see the rules in Lay
}

// Laid says what each cluster of a base holds. Clusters are in building order: strand after strand, each from its
// start.
type Laid struct {
	Kinds    []Kind  // odd ones last, otherwise the most frequent first
	Sequence []int   // kind of each cluster
	Slots    [][]int // by size: colour of each balloon, Each per cluster
}

// Lay gives every balloon of a base its colour.
//
//   - Scattered looks for at most MostKinds kinds that are near the even mixture. If one kind must take the leftovers,
//     it is odd, and there are as few of it as were found. A bounded search decides. Where it finds nothing, there may
//     be more kinds, at most 1 + the sum over the sizes of (colours - 1).
//   - Single and Rings make as many clusters of one colour as the counts allow. Mixed ones are odd.
//   - Bands mixes at most one cluster per size where two colours meet.
//   - Fade never lets more than two colours meet, and widens each change as far as its neighbours allow.
//   - Spiral: slot j of every cluster carries on stripe j. Colours change within a stripe only where their counts are
//     not multiples of the clusters.
//
// Bands, Fade, Spiral and Rings run at the same height through all strands. Scattered and Single make strands that do
// not touch as alike as the counts allow. Slots of all rules but Spiral are turned from cluster to cluster so that like
// colours meet less.
//
// Errors are ErrClusters, ErrSize, ErrSum, ErrRule and ErrKinds.
func Lay(b Base) (Laid, error) {
	b.Strands = max(b.Strands, 1)
	if b.MostKinds == 0 {
		b.MostKinds = defaultKinds
	}
	if err := check(b); err != nil {
		return Laid{}, err
	}
	l := &layout{Base: b, places: make([]int, b.Clusters)}
	for _, size := range b.Sizes {
		l.firsts = append(l.firsts, l.width)
		l.width += len(size.Colours)
	}
	l.counts = make([]int, b.Clusters*l.width)
	switch {
	case b.Clusters == 0:
	case b.Rule == Scattered:
		l.wrap()
		l.gather()
		l.scatter()
		l.arrange()
	case b.Rule == Spiral:
		l.spiral()
		l.gather()
	case b.Rule == Bands:
		l.bands()
		l.gather()
	case b.Rule == Fade:
		l.fade()
		l.gather()
	default:
		l.whole()
		l.gather()
		l.markMixed()
		l.arrange()
	}
	return l.laid(), nil
}
