package main

var calcBreaks = []mutation{
	{"the smallest remainder is served first", "calc/stock/split.go",
		"cmp.Compare(remainders[j], remainders[i])", "cmp.Compare(remainders[i], remainders[j])",
		[]string{"./calc/stock -skip GLPK"}},
	{"half the doubt", "calc/stock/spares.go", "doubt := (100 - surePct) / 100", "doubt := (100 - surePct) / 200",
		[]string{"./calc/stock -skip GLPK"}},
	{"an arch with one leg", "calc/outline/lengths.go", "return float64(2*legMM) + float64(math.Pi*widthMM/2), nil",
		"return legMM + float64(math.Pi*widthMM/2), nil", []string{"./calc/outline"}},
	{"twice the wind's pressure", "calc/rig/wind.go", "return 0.5 * orDefault(density", "return 1.0 * orDefault(density",
		[]string{"./calc/rig"}},
	{"no gusts", "calc/rig/wind.go", "return GustFactor * meanMPS }", "return meanMPS }",
		[]string{"./calc -run Golden|Tip|Outside"}},
	{"a stand tips over its far edge", "calc/rig/tip.go", "return f.BaseDepthMM / 2", "return f.BaseDepthMM",
		[]string{"./calc/rig"}},
	{"small boxes hold as much as large ones", "calc/cargo/balls.go", "1.740/float64(ratio*ratio)",
		"0.740/float64(ratio*ratio)", []string{"./calc/cargo"}},
	{"half of the dip that stays", "calc/rig/bar.go", "PlayRad: 4 * test.StaysMM / test.SpanMM",
		"PlayRad: 2 * test.StaysMM / test.SpanMM", []string{"./calc/rig"}},
	{"a task begins before the one that it waits for", "calc/crew/decoder.go", "d.waitLess(next, end+lag)",
		"d.waitLess(next, lag+0*end)", []string{"./calc/crew -run Feasible"}},
	{"one more of a thing than there is", "calc/crew/whole.go", "there := d.job.Things[need.thing].Count - need",
		"there := d.job.Things[need.thing].Count + 1 - need", []string{"./calc/crew -run Feasible"}},
}

var planBreaks = []mutation{
	{"no hand pump for each helper", "app/plan/packing/rules.go",
		`{key: "tool/hand-pump", bag: "bag/air", name: "Hand pump", kit: true, need: handPumpNeed},`, "",
		[]string{"./app/plan -run Golden|Pack|Pump"}},
	{"clamps for accents instead of frames", "app/plan/packing/rules.go",
		`each: "supply/clamps", of: frames`, `each: "supply/clamps", of: accents`,
		[]string{"./app/plan -run Pack|Golden|Bag|Reading"}},
	{"a ladder stays at the venue", "app/plan/packing/rules.go",
		`name: "Step ladder", kit: true`, `name: "Step ladder", kit: false`,
		[]string{"./app/plan -run Pack|Kit|Ladder"}},
}

var pageBreaks = []mutation{
	{"a helper may do what only others may", "pwa/page/do.go",
		"if !r.Visitor.Role.MayField(kind,", "if false && !r.Visitor.Role.MayField(kind,",
		[]string{"./pwa/page -run BadActions|Decisions|DoRefuses|RolesKeep"}},
	{"everybody sees the figures", "pwa/page/routes.go",
		`{page: address.Figures, who: owner, get: figuresPage, post: saveFigures},`,
		`{page: address.Figures, who: crew, get: figuresPage, post: saveFigures},`,
		[]string{"./pwa/page -run RolesKeep"}},
	{"a change is not checked", "pwa/page/do.go", "if err := job.CheckChange(result.change); err != nil {",
		"if err := job.CheckChange(result.change); err != nil && result.same {",
		[]string{"./pwa/page -run ANoteThatIsTooLong|BadActions"}},
	{"a removed thing cannot be brought back", "pwa/page/gone.go", `if state.Get(view.FieldRestore) == "" {`,
		`if state.Get(view.FieldRestore) != "never" {`, []string{"./pwa/page -run Gone|Removed"}},
	{"a bad brief is saved", "pwa/page/brief.go", "if !b.OK() || !c.OK() {", "if !b.OK() && !c.OK() {",
		[]string{"./pwa/page -run BadInput"}},
}

var (
	inGoldens = []string{"./app/forecast -run ^TestForecastGoldens$"}
	inTimes   = []string{"./app/forecast -run ^TestPeople(ComeAndGo|HelpAtHome)$"}
)

var forecastBreaks = []mutation{
	{"the design's fingerprint leaves out choices", "app/plan/cache.go", "j.Added, j.Overrides, j.Choices})",
		"j.Added, j.Overrides})", []string{"./app/plan -run ^TestDesignFingerprintCoversEveryField$"}},
	{"the forecast's fingerprint leaves out windows", "app/forecast/cache.go", "h.intervals(job.Windows[i])", "_ = i",
		[]string{"./app/forecast -run ^TestFingerprintCoversEveryInput$"}},
	{"the verdict is sure from 80 % on", "app/forecast/sentence.go", ".Odds >= 0.9:", ".Odds >= 0.8:", inGoldens},
	{"people stay an hour longer than they said", "app/forecast/people.go",
		"free = append(free, crew.Interval{From: from, To: to})",
		"free = append(free, crew.Interval{From: from, To: to + 60})",
		inTimes},
	{"usual evenings begin an hour earlier", "app/forecast/people.go", `("clock/evening-hour")*60)`,
		`("clock/evening-hour")*60) - 60`, inTimes},
	{"must-haves are on the cut line", "app/forecast/cut_line.go", "priority >= crew.Should;", "priority >= crew.Must;",
		[]string{"./app/forecast -run ^TestCutLineKeepsWhatMustBeThere$"}},
}
