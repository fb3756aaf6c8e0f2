package plan

import (
	"strconv"

	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

// outdoorNotes warns about wind, sun and rain, first about what cannot stand in the gusts that are expected.
func outdoorNotes(d *draft) {
	if !d.Outdoors() || len(d.Pieces) == 0 {
		return
	}
	d.limitNotes()
	d.Warn("", "Outdoors: agree a wind limit with the venue and name who watches it. Weigh down every foot. Sun dulls "+
		"and bursts balloons within the day. Local codes and the venue's rules come first.")
	d.heavyNotes()
	d.looseNotes()
	d.stakeNotes()
	d.bunchNotes()
	if d.Sunny() {
		d.Inform("", "Sun: hang balloons in the shade of a tree, a roof or a wall. Take pale colours where there is "+
			"none, and put balloons out last. Keep bags and cars in the shade.")
	}
	if d.Rains() {
		d.Warn("", "Rain: cover pumps, leads and cloths, and keep plugs off the ground. Wet ladders and floors are "+
			"slippery. Wet cloth is heavier: look at the dip again.")
	}
}

// limitNotes says at the top of the job which stands may not stand in the gusts that are expected, and what helps.
func (d *draft) limitNotes() {
	names, atMost, short := d.Limits()
	if names == "" {
		return
	}
	text := "Gusts of " + d.Gust() + " are expected. Even with all weights and lines, take down before " +
		"then: " + names + ". "
	if atMost {
		text += "Light décor may not stand in more than " +
			measure.FormatSpeed(figures.RoundDownTo(rig.TakeDownPart*rig.HighestWindMPS, 0.1), d.Units) +
			", whatever holds it. "
	}
	if short {
		text += "It would need more than " + measure.FormatMass(1000*d.Figures.Get("stand/most-kg"), d.Units) +
			" on one stand: deeper feet and a lower or more open face help"
		if d.OnGrass() && d.Stakes() == 0 {
			text += ", and stakes and lines in the grass"
		}
		text += ". "
	}
	d.Note(count.Note{Kind: "warning", Urgent: true, Text: text + "Put it under a roof or behind a wall, or agree on " +
		"another place now. Local codes, the venue and a competent person decide."})
}

// heavyNotes says what deeper feet would save where a stand takes a lot of weight.
func (d *draft) heavyNotes() {
	for _, s := range d.Stands {
		if fewer := d.Deeper(s); s.More && s.Weights >= manyWeights && fewer < s.Weights {
			d.Warn("", s.Name+": "+phrase.Count(s.Weights, "weight")+" of "+d.FootWeight()+" for gusts of "+d.Gust()+
				". On feet "+d.Length(2*s.FeetMM())+" deep instead of "+d.Length(s.FeetMM())+" it takes "+
				strconv.Itoa(fewer)+".")
		}
	}
}

// manyWeights is how many weights of one stand are worth a word. From memory.
const manyWeights = 8

// looseNotes warns about what stands outdoors without a stand that the plan knows.
func (d *draft) looseNotes() {
	for _, c := range d.Pieces {
		if pushN := d.PushN(c); pushN > 0 {
			d.Warn(c.Piece.ID, c.Piece.Name+": no frame is set, so nothing here says that it holds. Gusts of "+d.Gust()+
				" push it with "+measure.FormatForce(pushN, d.Units)+
				". Name its frame, or tie it to posts or rails that the venue trusts with that.")
		}
	}
}

// stakeNotes asks whether stakes may be driven in where they help.
func (d *draft) stakeNotes() {
	options := rigging.StakesOptions()
	picked := d.Picked(rigging.StakesKey, options)
	if !d.OnGrass() || d.Stakes() == 0 && picked == "" {
		return
	}
	d.Note(count.Note{Key: rigging.StakesKey, Kind: "warning", Options: options, Picked: picked,
		Title: "Stakes in the grass?",
		Text: "May stakes be driven into the grass? Ask the owner about cables, gas, water and irrigation. Without " +
			"stakes frames take more weights."})
}

// bunchNotes says how floating balloons behave in the wind.
func (d *draft) bunchNotes() {
	if d.Floating() == 0 {
		return
	}
	d.Warn("", "Outdoors, keep every helium balloon tied to a weight. Letting one go is illegal in many places and "+
		"litter everywhere.")
	for _, c := range d.Pieces {
		if hold, floats := d.Bunch(c); floats && d.GustMPS() > hold.LiesMPS {
			d.Warn(c.Piece.ID, c.Piece.Name+": from gusts of "+measure.FormatSpeed(hold.LiesMPS, d.Units)+
				" on they lean over by more than 45 degrees, whatever the weight, and in "+d.Gust()+
				" they beat against tables and burst. Put them indoors or in shelter, or fill them with air on sticks.")
		}
	}
}
