package count

import (
	"math"
	"strconv"

	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/calc/cluster"
	"garlandry/calc/outline"
	"garlandry/calc/pattern"
)

// uprights fills the piece with equal bases of the height: clusters and balloons by colour. They count in layers from
// the foot, as in the column and wall calculators.
func (d *Draft) uprights(c *Counted, heightMM float64, bases int) {
	c.LengthMM = float64(heightMM * float64(bases))
	groups := d.baseGroups(c)
	if groups == nil {
		return
	}
	thick := widestMM(groups)
	each := layersFor(heightMM, c.PitchMM, thick)
	c.Clusters = each * bases
	c.line("Clusters", "the first is "+d.SmallMM(thick)+" high, each further one adds "+d.SmallMM(c.PitchMM)+", up to "+
		d.Length(heightMM), phrase.Count(each, "cluster"), pitchSource(d.Push))
	if bases > 1 {
		c.line("Total", phrase.Count(each, "cluster")+" x "+strconv.Itoa(bases), phrase.Count(c.Clusters, "cluster"),
			figures.Arithmetic())
	}
	d.dealBase(c, groups, bases)
}

// dealBase deals the clusters of a base, or of equal bases side by side.
func (d *Draft) dealBase(c *Counted, groups []group, bases int) {
	c.Laid = d.layBase(c, groups, layer{clusters: c.Clusters, strands: bases, rule: pattern.Rule(c.Piece.Pattern),
		joined: c.Kind.Covers})
	c.Make = Batch{c.Clusters, "cluster", "clusters"}
}

// baseGroups returns the groups of a base's clusters, and sets its recipe and pitch; nil without a recipe.
func (d *Draft) baseGroups(c *Counted) []group {
	p := &c.Piece
	if p.Recipe.Duplets() == 0 {
		d.Warn(p.ID, p.Name+": no recipe yet, so no clusters are counted.")
		return nil
	}
	groups := d.blend(c, p.Recipe, p.Colours, nil)
	c.Recipe = groups[0].recipe
	c.PitchMM = d.meanPitchMM(groups)
	return groups
}

// meanPitchMM returns the pitch of a base in which groups of clusters alternate.
func (d *Draft) meanPitchMM(groups []group) float64 {
	sum, weight := 0.0, 0.0
	for _, g := range groups {
		sum += float64(d.pitchMM(g.recipe) * g.weight)
		weight += g.weight
	}
	if !(weight > 0) {
		return 0
	}
	return sum / weight
}

// mixedTolerance is the share of a cluster forgiven when a base of several recipes is rounded up, as in
// [cluster.ClustersAlong].
const mixedTolerance = 1e-3

func (d *Draft) clustersAlong(lengthMM, pitchMM float64, groups []group) int {
	if len(groups) == 1 {
		return cluster.ClustersAlong(lengthMM, groups[0].recipe, d.Push)
	}
	if !(pitchMM > 0) || !(lengthMM > 0) {
		return 0
	}
	return int(math.Ceil(max(math.Min(lengthMM/pitchMM, 1e6)-mixedTolerance, 0)))
}

// addDuplets adds duplets to the base, or to what is on it.
func (c *Counted) addDuplets(n, sizeIn int, toIn float64, on *LayerCount) {
	if n <= 0 {
		return
	}
	c.Duplets += n
	list := &c.Parts
	if on != nil {
		list = &on.Parts
	}
	*list = append(*list, part{n, sizeIn, toIn})
}

// cut cuts equal bases of each clusters into lengths that fit into the car and that two people can carry. A base
// joined on site stays whole. Number is that of the base where there are several along a line, else 0.
func (d *Draft) cut(c *Counted, lengthMM float64, each, bases, number int) {
	if each == 0 {
		return
	}
	lengths := []float64{lengthMM}
	if !c.JoinOnSite() {
		limit, why, source := d.longestSection()
		lengths = outline.Sections(lengthMM, limit)
		if len(lengths) > each {
			lengths = outline.Sections(lengthMM, lengthMM/float64(each))
		}
		if len(lengths) > 1 {
			what := "Sections"
			if number > 0 {
				what += " of base " + strconv.Itoa(number)
			}
			c.line(what, d.Length(lengthMM)+" in lengths of up to "+d.Length(limit)+", "+why,
				phrase.Count(len(lengths), "section"), source)
		}
	}
	weights := make([]float64, len(lengths))
	for i := range weights {
		weights[i] = 1
	}
	shares := allot(each, weights)
	for range bases {
		for _, n := range shares {
			c.Sections = append(c.Sections, Section{Number: len(c.Sections) + 1, Clusters: n,
				LengthMM: float64(lengthMM * (float64(n) / float64(each))), Base: number})
		}
	}
	c.Fix = Batch{len(c.Sections), "section", "sections"}
}

// longestSection returns the longest base that can be carried, and what limits it.
func (d *Draft) longestSection() (mm float64, why string, source figures.Source) {
	carry := d.Figures.Row("section/carry")
	if !d.Travels() {
		return carry.Value, "the longest two people carry through a door", carry.Source
	}
	row := d.Figures.Row("section/car")
	car, why, source := row.Value, "the longest a car takes", row.Source
	for _, k := range d.Job.Kit {
		if k.Kind == "car" && k.LongestMM > 0 && (source.Mark != figures.Measured || k.LongestMM > car) {
			car, why, source = k.LongestMM, "the longest "+k.Name+" takes",
				figures.Source{Text: "your kit", Mark: figures.Measured}
		}
	}
	if carry.Value < car {
		return carry.Value, "the longest two people carry through a door", carry.Source
	}
	return car, why, source
}

// fixTies returns the 260s that fix a base to its frame.
func (d *Draft) fixTies(lengthMM float64) int {
	return figures.RoundUp(lengthMM/d.Figures.Get("ties/fix-every") + d.Figures.Get("ties/ends"))
}

// joinTies adds the 260s that hold a base together and those that fix it to its frame.
func (d *Draft) joinTies(c *Counted, fix int) {
	if c.Clusters == 0 {
		return
	}
	join, every := d.Figures.Row("ties/join"), d.Figures.Row("ties/fix-every")
	n := figures.RoundUp(float64(float64(c.Clusters) * join.Value))
	c.Ties += n + fix
	c.line("Ties to join", phrase.Count(c.Clusters, "cluster")+" x "+phrase.Number(join.Value), phrase.Count(n, "tie"),
		join.Source)
	c.line("Ties to fix", "one every "+d.Length(every.Value)+" and at the ends", phrase.Count(fix, "tie"), every.Source)
	c.Joined = true
}

func pitchSource(p cluster.Push) figures.Source {
	switch p.Source {
	case cluster.SourceMeasured:
		return figures.Source{Text: "clusters pushed together as hard as on a base you measured", Mark: figures.Measured}
	case cluster.SourcePublished:
		return figures.Source{Text: "rings of balloons turned against each other, pushed together", Mark: figures.Published}
	}
	return figures.Source{Text: "clusters pushed together as hard as quads of 9.5 in that stand two to the foot",
		Mark: figures.CommonPractice}
}
