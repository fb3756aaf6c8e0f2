package calc

import (
	"math"
	"strings"

	"garlandry/calc/cargo"
	"garlandry/calc/cluster"
	"garlandry/calc/latex"
	"garlandry/calc/measure"
)

var carCalculator = Calculator{
	Name: "car", Title: "Into the car", Group: groupCar,
	Purpose: "How many trips the finished work takes and how long a section may be",
	Inputs: []Input{
		{
			Key:     "cargo",
			Label:   "Inside of the car",
			Kind:    KindBox,
			Example: "140 x 100 x 80 cm",
			Help: "Length, width and height behind the front seats, measured with a tape. Give this, or litres, or both: " +
				"then the smaller counts.",
		},
		{Key: "litres", Label: "Litres", Kind: KindVolume, Min: 1, Max: cargo.LargestLitres,
			Example: "1200", BareMetric: true, Help: "From the car's papers, if you cannot measure."},
		{Key: "door", Label: "Largest opening", Kind: KindBox, Example: "90 x 70 cm",
			Help: "Width and height of the largest door or tailgate. Left out, it counts as large as the space."},
		{Key: "recipe", Label: "Recipe of one cluster", Kind: KindRecipe, Default: "2x11@10 + 1x18@16",
			Example: "2x11@10 + 1x18@16", Help: helpRecipe},
		{Key: "clusters", Label: "Loose clusters", Kind: KindCount, Min: 0, Max: cargo.LargestCount, Example: "20",
			Help: "Clusters of the recipe that are carried loose in bags."},
		{Key: "balloons", Label: "Loose balloons", Kind: KindBalloons, Example: "120 x 11@10, 40 x 5",
			Help: "How many, and which size sized to what, with commas between."},
		{Key: "sections", Label: "Sections", Kind: KindCount, Min: 0, Max: cargo.LargestCount, Example: "3",
			Help: "Lengths of base that are built already."},
		{Key: "section_length", Label: "Each section", Kind: KindLength, Min: 50, Max: 500_000, Example: "1.8m",
			Help: "How long one section is, along its middle."},
		{Key: "section_thick", Label: "Thick", Kind: KindSmallLength, Min: 20, Max: 5000, Example: "60cm", Advanced: true,
			Help: "How wide a section is at its widest. Left out, that of a base of the recipe."},
		{Key: "squeeze", Label: "Give", Kind: KindPercent, Min: 0, Max: cargo.LargestSqueeze,
			Default: "10 %", Example: "5%", Advanced: true,
			Help: "How much thinner soft work may be pressed for the moment it goes in."},
		{
			Key:      "packing",
			Label:    "Packing",
			Kind:     KindPercent,
			Min:      100 * cargo.LeastPacking,
			Max:      100 * cargo.MostPacking,
			Default:  measure.FormatPercent(100 * cargo.CommonPacking),
			Example:  "50%",
			Advanced: true,
			Help:     "Share of the space that the balloons of clusters and sections fill. Large ones in a small car fill less.",
		},
	},
	Outputs: []Output{
		{"fits", "Goes in at once", "Whether it all goes in one trip, uncut", KindFlag, true},
		{"trips", "Trips", "How often to drive; what cannot go in at all is left out", KindCount, true},
		{"litres", "Takes", "Space it takes over all trips, gaps included", KindVolume, false},
		{"longest_mm", "Longest section", "The longest section that goes in, bent as far as it can", KindLength, true},
		{"car_l", "Space", "Space of one trip", KindVolume, false},
	},
	Cautions: []string{
		latex.CautionHeat,
		"Keep the driver's view, the mirrors and every belt free. Tie down what is heavy, and drive so that you never have " +
			"to brake hard. The law on loads comes first.",
		latex.CautionChoking,
	},
	Example: Example{
		Story: "Reading room reopening: twenty loose clusters and a section of 3 m in an estate car. A loose cluster holds " +
			"29.4 litres and takes 53.5 of the car. The section is too long and is cut in two",
		Inputs: []Entry{{Key: "cargo", Text: "180 x 110 x 85 cm"}, {Key: "door", Text: "100 x 75 cm"},
			{Key: "recipe", Text: "2x11@9.5"}, {Key: "clusters", Text: "20"}, {Key: "sections", Text: "1"},
			{Key: "section_length", Text: "3m"}},
		Expect: []Expectation{{Key: "fits", Text: "no"}, {Key: "trips", Value: 2}, {Key: "car_l", Value: 1683, Within: 1e-6}},
	},
	Run: runCar,
}

// spaceOf returns the space in the car.
func (v Values) spaceOf() (cargo.Space, error) {
	if !v.Has("cargo") && !v.Has("litres") {
		return cargo.Space{}, v.needs("cargo", "give the inside of the car or its litres")
	}
	inside, door := v.Box("cargo"), v.Box("door")
	litres := v.Number("litres")
	if inside.Litres > 0 && (litres == 0 || inside.Litres < litres) {
		litres = inside.Litres
	}
	if v.Has("cargo") && inside.LengthMM == 0 && inside.Litres == 0 {
		return cargo.Space{}, v.refuse("cargo", "give three sides: length, width, height", nil)
	}
	if v.Has("door") && (door.LengthMM != 0 || door.Litres != 0) {
		return cargo.Space{}, v.refuse("door", "give two sides: width, height", nil)
	}
	return cargo.Space{
		LengthMM: inside.LengthMM, WidthMM: inside.WidthMM, HeightMM: inside.HeightMM, Litres: litres,
		DoorWidthMM: door.WidthMM, DoorHeightMM: door.HeightMM,
	}, nil
}

// loadOf collects everything to carry.
func (v Values) loadOf(across float64) (cargo.Load, error) {
	load := cargo.Load{SqueezePct: v.Number("squeeze"), Packing: v.Number("packing") / 100}
	recipe := v.Recipe("recipe")
	if n := v.Count("clusters"); n > 0 {
		load.Clusters = append(
			load.Clusters,
			cargo.Clusters{Name: "clusters of " + recipe.String(), ReachMM: cluster.BallMM(recipe), Count: n,
				Filling: filling(recipe, 1)},
		)
	}
	for _, loose := range v.Balloons("balloons") {
		if loose.Count > 0 {
			name := whole(loose.Part.SizeIn) + "-inch balloons"
			size, _ := latex.Find(loose.Part.SizeIn)
			mm := loose.Part.DiameterMM()
			load.Balls = append(load.Balls,
				cargo.Balls{Name: name, DiameterMM: mm, Count: loose.Count, AirL: size.VolumeL(mm)})
		}
	}
	if n := v.Count("sections"); n > 0 {
		if err := v.needs("section_length", "sections need their length"); err != nil {
			return load, err
		}
		load.Sections = append(load.Sections,
			cargo.Sections{Name: "sections", LengthMM: v.Number("section_length"), AcrossMM: across, Count: n})
		if !v.Has("section_thick") || !v.assumed("recipe") {
			load.Sections[0].Filling = filling(recipe,
				cluster.ClustersAlong(v.Number("section_length"), recipe, cluster.StandardPush()))
		}
	}
	if len(load.Clusters) == 0 && len(load.Balls) == 0 && len(load.Sections) == 0 {
		return load, v.refuse("clusters", "missing: give clusters, balloons or sections to carry", nil)
	}
	return load, nil
}

// filling returns the air and the largest balloon of a number of clusters.
func filling(recipe cluster.Recipe, clusters int) (f cargo.Filling) {
	for _, part := range recipe {
		size, _ := latex.Find(part.SizeIn)
		f.AirL += float64(size.VolumeL(part.DiameterMM()) * float64(2*part.Duplets*clusters))
		f.BalloonMM = math.Max(f.BalloonMM, part.DiameterMM())
	}
	return f
}

func runCar(v Values, result *Result) error {
	space, err := v.spaceOf()
	if err != nil {
		return err
	}
	across := cluster.WidestMM(v.Recipe("recipe"), cluster.StandardPush())
	if v.Has("section_thick") {
		across = v.Number("section_thick")
	}
	load, err := v.loadOf(across)
	if err != nil {
		return err
	}
	a, err := cargo.Pack(space, load)
	if err != nil {
		return v.blame("cargo", err)
	}
	longest := a.LongestMM
	if len(load.Sections) == 0 {
		longest, err = cargo.LongestSectionMM(space, across*(1-load.SqueezePct/100))
		if err != nil {
			return v.blame("cargo", err)
		}
	}
	result.figures("litres longest_mm car_l",
		a.Litres, longest, a.SpaceLitres)
	result.counts("trips",
		a.Trips)
	result.Outputs["fits"] = a.Fits
	v.carSources(result, space, load)
	v.carWorking(result, a, load, across, longest)
	if space.LengthMM == 0 {
		result.note(v.shapeUnknown(space, across*(1-load.SqueezePct/100)))
	}
	carNotes(v, result, a, longest)
	result.Drawing = drawCar(v, space, load, a)
	return nil
}

// carSources names the sources of what the load needs and of what goes in. A section of a measured thickness needs a
// bar of that thickness, unless its recipe was given too.
func (v Values) carSources(result *Result, space cargo.Space, load cargo.Load) {
	thick, filled := v.Has("section_thick"), len(load.Sections) > 0 && load.Sections[0].Filling.AirL > 0
	soft := len(load.Clusters) > 0 || filled
	if soft || !thick {
		result.use("rest", "spheres")
		result.useSizes(v, "recipe")
	}
	result.useIf(!thick || filled, "push")
	result.useSizes(v, "balloons")
	if soft {
		for _, part := range v.Recipe("recipe") {
			result.useGas(part.SizeIn, part.DiameterMM())
		}
	}
	for _, loose := range v.Balloons("balloons") {
		if loose.Count > 0 {
			result.useGas(loose.Part.SizeIn, loose.Part.DiameterMM())
		}
	}
	result.useIf(len(load.Balls) > 0 || soft, "car/poured")
	result.useIf(soft && v.assumed("packing"), "car/packing")
	result.useIf(v.Has("litres") || v.Box("cargo").Litres > 0, "car/litres")
	result.useIf(space.LengthMM == 0, "car/shape")
	result.use("car/bend")
	result.useIf(v.assumed("squeeze"), "car/squeeze")
}

func (v Values) carWorking(result *Result, a cargo.Answer, load cargo.Load, across, longest float64) {
	result.step("Space", "inside of the car", "{volume}", a.SpaceLitres)
	for _, share := range a.Shares {
		result.step(counted(share.Count, share.Name), "one trip holds {0} of them alone", "{volume}",
			float64(share.PerTrip), share.Litres)
	}
	result.step("Takes", "all shares together", "{volume}", a.Litres)
	result.step("Trips", "{volume} / {volume}, rounded up; each thing travels whole, in one trip",
		"{0}", a.Litres, a.SpaceLitres, float64(a.Trips))
	result.step("Longest section", "{small_length} thick, giving {percent}, straight, slantwise or bent", "{length}",
		across, load.SqueezePct, longest)
}

// shapeUnknown returns a note for a space known only by its litres. It names the longest section for the usual shape,
// 2.2 : 1.3 : 1 (from memory).
func (v Values) shapeUnknown(space cargo.Space, acrossMM float64) string {
	high := math.Cbrt(space.Litres * 1e6 / (2.2 * 1.3))
	space.LengthMM, space.WidthMM, space.HeightMM = 2.2*high, 1.3*high, high
	text := "Litres alone do not say how long a section may be. The space is treated as a cube, the worst shape " +
		"for long things. "
	if usual, err := cargo.LongestSectionMM(space, acrossMM); err == nil && usual > 0 {
		text += v.say("A space of the usual shape ({length} long) would take {length}. ", 2.2*high, usual)
	}
	return text + "Measure yours. Litres in a car's papers also count nooks that no balloon reaches."
}

// counted returns a number with a plural name.
func counted(n int, name string) string {
	if n == 1 {
		name = strings.NewReplacer("clusters", "cluster", "sections", "section", "balloons", "balloon").Replace(name)
	}
	return whole(n) + " " + name
}

func carNotes(v Values, result *Result, a cargo.Answer, longest float64) {
	for _, refused := range a.Refused {
		result.note(counted(refused.Count, refused.Name) + ": " + string(refused.Reason) + ". Build on site, or take a van.")
	}
	for _, cut := range a.Cuts {
		result.note("Too long to go in: carry each section of {length} as {0} parts of {length}. Join them on site.",
			cut.LengthMM, float64(cut.Parts), cut.PartMM)
	}
	if longest == 0 {
		result.note("No section of that thickness goes in: carry loose clusters in bags.")
	}
	result.note(
		"An estimate, not a packing plan. Frames, weights and tools are not counted: load them first and measure what is " +
			"left.",
	)
}

// drawnBalls returns the loose things to draw. A cluster is drawn as large as the space it needs.
func drawnBalls(load cargo.Load, a cargo.Answer) cargo.Balls {
	if len(load.Balls) > 0 {
		return load.Balls[0]
	}
	c := load.Clusters[0]
	d := c.ReachMM
	if len(a.Shares) > 0 && a.Shares[0].Name == c.Name {
		d = math.Cbrt(a.Shares[0].Litres / float64(a.Shares[0].Count) * 1e6)
	}
	return cargo.Balls{DiameterMM: d, Count: c.Count}
}

// drawCar shows the space from the side with some of the load in it.
func drawCar(v Values, space cargo.Space, load cargo.Load, a cargo.Answer) *Drawing {
	s := v.sketch()
	long, high := space.LengthMM, space.HeightMM
	if long == 0 {
		long = math.Cbrt(a.SpaceLitres * 1e6)
		high = long
	}
	s.box(RoleBox, 0, 0, long, high)
	if space.DoorHeightMM > 0 {
		s.line(RoleFrame, long, 0, long, math.Min(space.DoorHeightMM, high))
	}
	if len(load.Balls)+len(load.Clusters) > 0 {
		balls := drawnBalls(load, a)
		d := balls.DiameterMM
		columns, rows := int(long/d), int(high/d)
		shown := min(balls.Count, columns*rows, 400)
		for i := range shown {
			s.circle(RoleBalloon, d*(float64(i%columns)+0.5), d*(float64(i/columns)+0.5), d/2)
		}
	}
	longest := long
	for _, section := range load.Sections {
		longest = math.Max(longest, section.LengthMM)
	}
	gap := longest * 0.08
	s.dimension(0, -gap, long, -gap, "{length}", long)
	s.dimension(-gap/2, 0, -gap/2, high, "{length}", high)
	above := high + gap
	for _, section := range load.Sections {
		s.box(RoleBalloon, 0, above, section.LengthMM, section.AcrossMM)
		above += section.AcrossMM + gap
		s.dimension(0, above, section.LengthMM, above, "section {length}", section.LengthMM)
	}
	drawing := s.drawing("The inside of the car from the side, {trip|trips}", float64(a.Trips))
	if drawing != nil {
		drawing.Note = "One layer of the loose things in neat rows; really they lie less neatly."
	}
	return drawing
}
