package task

import (
	"strconv"

	"garlandry/app/plan/count"
	"garlandry/app/plan/phrase"
)

// joinRule adds the cards for joining clusters into a base, in sections.
var joinRule = rule{
	family: FamilyJoin,
	place:  Home,
	noun:   "piece",
	title:  "Join the base of ",
	cards: func(d *draft, r *rule) {
		for _, p := range d.Pieces {
			if !p.Joined || len(p.Sections) == 0 {
				continue
			}
			c := r.pieceCard(d, p)
			where := Home
			if p.JoinOnSite() {
				where = Site
			}
			c.Place = where
			c.counts(count.Batch{Count: len(p.Sections), One: "section", Many: "sections"})
			c.Steps = []string{"Double a 260 into a loop and twist it round one balloon of the last cluster.",
				"Pull two or three balloons of the next cluster through the loop. One alone will not hold.",
				"Push the clusters together until the base is full but still bends."}
			if len(p.Bases) > 1 {
				c.Steps = append(c.Steps, d.baseSteps(p)...)
			} else {
				c.Steps = append(c.Steps, d.sectionSteps(p)...)
			}
			c.takes(d.effort(where, "join", float64(p.Clusters)))
			d.hands(c, 1, d.pair())
			c.After = []Ref{FamilyMake.Of(p.Piece.ID), FamilyAhead.Of(p.Piece.ID)}
			if p.Carried == count.InClusters {
				c.After = append(c.After, FamilyUnload.Only(), FamilyLook.Only())
			}
			if where == Site {
				c.After = append(c.After, d.arrivals(p)...)
			}
			c.care(eyes)
		}
	},
}

// baseSteps says what each of several bases consists of, and how its clusters follow one another.
func (d *draft) baseSteps(p *count.Counted) (steps []string) {
	part, at := 0, 0
	for i, s := range p.Sections {
		if part++; i > 0 && s.Base != p.Sections[i-1].Base {
			part = 1
		}
		step := "Base " + strconv.Itoa(s.Base) + ", section " + strconv.Itoa(part) + ": " +
			phrase.Count(s.Clusters, "cluster") + ", about " + d.Length(s.LengthMM) + " long"
		if order := p.Laid.Order(at, at+s.Clusters); len(p.Laid.Kinds) > 1 && order != "" {
			step += ". In this order, from its start: " + order
		}
		steps, at = append(steps, step+"."), at+s.Clusters
	}
	return append(steps, "Label each with its base and section.")
}

// sectionSteps says how large the sections of a base are, and how its clusters follow one another.
func (d *draft) sectionSteps(p *count.Counted) (steps []string) {
	if len(p.Sections) > 1 {
		steps = append(steps, "Each section has "+clusterRange(p.Sections)+" and is about "+
			d.Length(p.Sections[0].LengthMM)+" long. Number the sections 1 to "+strconv.Itoa(len(p.Sections))+".")
	}
	return append(steps, p.InOrder()...)
}

// clusterRange says how many clusters sections have: "12 clusters", or "11 to 12 clusters".
func clusterRange(sections []count.Section) string {
	least, most := sections[0].Clusters, sections[0].Clusters
	for _, s := range sections {
		least, most = min(least, s.Clusters), max(most, s.Clusters)
	}
	if least == most {
		return phrase.Count(most, "cluster")
	}
	return strconv.Itoa(least) + " to " + phrase.Count(most, "cluster")
}
