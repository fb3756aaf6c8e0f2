package page

import (
	"slices"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// startBrief returns the fields of the brief in the form of a new job.
func startBrief() []string { return []string{"title", "date", "in", "doors", "place", "units"} }

func (r *request) newEditor() view.Editor {
	return view.Editor{Noun: nounOf("brief"), Fields: startBrief(), Clock: true}
}

func newJob(r *request) *Reply {
	if r.in.Has("title") {
		return r.draftJob()
	}
	state := form.Blank(nounOf("brief"), startBrief(), r.frame.Units)
	state.Values.Set("units", string(r.frame.Units))
	state.Values.Set("date", r.startDate())
	state.Values.Set("doors", startDoors)
	state.Values.Set("in", accessBefore(startDoors))
	state.Values.Set(view.StartAccess, accessBefore(startDoors))
	state.Values.Set(view.StartCrew, "2")
	state.Values.Set("zone", r.startZone())
	state.Values.Set(view.StartYou, r.startName())
	state.Values.Set(view.StartFigures, "1")
	r.offerCarry(state, true)
	state.Values = follow(state.Values, r.frame.Units)
	return r.draw("New job", r.drawNewJob(state, 0))
}

// draftJob draws the form while somebody fills it in, with how many balloons that makes. Nothing is stored.
func (r *request) draftJob() *Reply {
	s := r.start()
	balloons := 0
	if s.state.OK() {
		for _, p := range plan.Counted(job.Preview(s.changes)).Pieces {
			balloons += p.Balloons
		}
	}
	s.state.Errors, s.state.Alert = map[string]string{}, ""
	return r.draw("New job", r.drawNewJob(s.state, balloons))
}

func (r *request) drawNewJob(state form.State, balloons int) view.Node {
	r.offerCarry(state, false)
	brief := r.newEditor()
	brief.State = state
	return view.NewJob(r.frame, view.NewJobPage{Brief: brief, Own: r.lastOwn(view.StartColours()),
		Title: startTitle(state.Values), Balloons: balloons})
}

// onTheDay puts the day of the event before the times of day in a new job's form. Without a day, times that nobody
// typed are left out. It reports whether there are others.
func onTheDay(typed form.Values) (dated form.Values, missing bool) {
	dated = typed.Clone()
	day := strings.TrimSpace(typed.Get("date"))
	usual := typed.Get("doors") == startDoors && typed.Get("in") == typed.Get(view.StartAccess)
	for _, name := range []string{"in", "doors"} {
		clock := strings.TrimSpace(typed.Get(name))
		switch {
		case clock == "" || strings.ContainsAny(clock, "-T "):
		case day == "":
			dated.Set(name, "")
			missing = !usual
		default:
			dated.Set(name, day+"T"+clock)
		}
	}
	return dated, missing
}

// starter collects the changes that make a new job.
type starter struct {
	typed   form.Values
	units   measure.System
	state   form.State
	changes []job.Change
	shares  []job.Share
	used    map[string]bool // entities
	greys   []string        // names of colours without a value, shown as grey
}

// start reads the form of a new job.
func (r *request) start() *starter {
	units := unitsOf(r.in, r.frame.Units)
	r.frame.Units = units
	shown := follow(r.in, units)
	dated, missing := onTheDay(shown)
	if strings.TrimSpace(dated.Get("title")) == "" {
		dated.Set("title", startTitle(shown))
	}
	changes, state := form.Entity(nounOf("brief"), "brief", startBrief(), dated, units)
	state.Values = shown
	if missing {
		state.Fail("date", "Add the date: the times are on that day.")
	}
	s := &starter{typed: dated, units: units, state: state, changes: filledOnly(changes), used: map[string]bool{}}
	s.together()
	s.colours()
	s.pieces()
	s.crew(r.latest())
	s.changes = append(s.changes, r.zoneChanges()...)
	if r.in.Get(view.StartFigures) != "" {
		s.changes = append(s.changes, r.figureChanges(job.Preview(s.changes).Colours)...)
	}
	return s
}

func makeJob(r *request) *Reply {
	s := r.start()
	if !s.state.OK() {
		return r.invalid("New job", r.drawNewJob(s.state, 0))
	}
	title := job.Preview(s.changes).Brief.Title
	flash := title + ": here is the first plan."
	if len(s.greys) > 0 {
		flash += " Set under Colours how these look: " + strings.Join(s.greys, ", ") + "."
	}
	return r.create(s.changes, flash)
}

func (s *starter) together() {
	changes := valid(nounOf("brief"), "brief", startBrief(), s.typed, s.units)
	s.state = s.state.Together(job.Preview(changes).Brief.CheckTogether(), startBrief())
}

// unique returns a new entity of a noun for this job.
func (s *starter) unique(noun, name string) string {
	base := noun + "/" + slug(name, 20)
	entity := base
	for i := 2; s.used[entity]; i++ {
		entity = base + "-" + strconv.Itoa(i)
	}
	s.used[entity] = true
	return entity
}

func (s *starter) put(entity, field string, value any) {
	s.changes = append(s.changes, job.Put(entity, field, value))
}

// colours adds the tapped colours and those typed by name.
func (s *starter) colours() {
	offered := map[string]job.Colour{}
	for _, c := range view.StartColours() {
		offered[c.ID] = c
	}
	for _, id := range s.typed[view.StartColour] {
		c, known := offered[id]
		if !known {
			s.state.Fail(view.StartColour,
				"Tap colours in the list. Type others below it.")
			return
		}
		s.colour(c)
	}
	separator := func(r rune) bool { return strings.ContainsRune(",;\n", r) }
	for _, name := range strings.FieldsFunc(s.typed.Get(view.StartOther), separator) {
		if name = strings.TrimSpace(name); name != "" {
			s.named(name)
		}
	}
}

// named adds a colour by its name: an offered one, a web colour, or a grey until somebody sets its value.
func (s *starter) named(name string) {
	plain := lettersOf(name)
	for _, c := range view.StartColours() {
		if lettersOf(c.Name) == plain {
			if !s.used["colour/"+slug(c.Name, 20)] {
				s.colour(c)
			}
			return
		}
	}
	value := webColour(plain)
	if value == "" {
		grey := strconv.FormatInt(int64(0xc8-0x18*(len(s.greys)%6)), 16)
		value = "#" + grey + grey + grey
		s.greys = append(s.greys, name)
	}
	s.colour(job.Colour{Name: name, Value: value, Finish: "standard", Sizes: []int{5, 11, 18}})
}

func (s *starter) colour(c job.Colour) {
	if len(s.shares) >= 40 {
		s.state.Fail(view.StartOther, "A new job takes up to 40 colours.")
		return
	}
	entity := s.unique("colour", c.Name)
	for _, change := range append(colourChanges(entity, c), job.Put(entity, "order", len(s.shares)+1)) {
		if err := job.CheckChange(change); err != nil {
			s.state.Fail(view.StartOther, capitalized(plainMessage(err))+".")
			return
		}
		s.changes = append(s.changes, change)
	}
	s.shares = append(s.shares, job.Share{Colour: strings.TrimPrefix(entity, "colour/"), Weight: 1})
}

// pieces adds a piece for each picture that was tapped.
func (s *starter) pieces() {
	order := 0
	for _, p := range view.StartPieces() {
		key := view.StartMeasure + p.Key
		if !slices.Contains(s.typed[view.StartBuild], p.Key) {
			continue
		}
		order++
		entity := s.unique("piece", p.Label)
		picture := starting{p}
		size, state := picture.size(entity, s.typed.Get(key), s.units)
		if !state.OK() {
			s.state.Fail(key, p.Label+", "+p.Ask+": "+state.Errors[state.Wrong()[0]])
			continue
		}
		s.changes = append(s.changes, picture.begin(entity, s.units, size)...)
		if len(s.shares) > 0 {
			s.put(entity, "colours", s.shares)
		}
		s.put(entity, "order", order)
		if err := plan.CheckSizes(job.Preview(s.changes)); err != nil && s.state.Errors[key] == "" {
			s.state.Fail(key, p.Label+", "+p.Ask+": make it smaller. "+err.Error())
		}
	}
}

// startName returns the name of the person who makes a job: from their link, else from the latest job, else "".
func (r *request) startName() string {
	if name := truncate(strings.TrimSpace(r.Visitor.Name), 60); name != "" {
		return name
	}
	if crew := r.latest().Crew; len(crew) > 0 && crew[0].Skill == "practised" && crew[0].Name != job.UnnamedOwner &&
		crew[0].Name != "Whoever runs the job" { // as earlier builds wrote it
		return crew[0].Name
	}
	return ""
}

// crew adds the typed number of people: those of the last job if they are carried over, then others. The first of a new
// crew is practised and helps at home, the others are beginners.
func (s *starter) crew(last *job.Job) {
	typed := strings.TrimSpace(s.typed.Get(view.StartCrew))
	if typed == "" {
		s.carry(last, 0)
		return
	}
	n, err := measure.ParseCount(typed)
	if err != nil || n < 1 || n > 20 {
		s.state.Fail(view.StartCrew, "How many people, you included? A whole number from 1 to 20.")
		return
	}
	for i := s.carry(last, n); i < n; i++ {
		name, skill := helperName(i), "beginner"
		if i == 0 {
			skill = "practised"
			if name = truncate(strings.TrimSpace(s.typed.Get(view.StartYou)), 60); name == "" {
				name = job.UnnamedOwner
			}
		}
		entity := s.unique("member", name)
		s.put(entity, "name", name)
		s.put(entity, "skill", skill)
		s.put(entity, "home", i == 0)
		s.put(entity, "order", i+1)
	}
}

func helperName(i int) string {
	ordinals := []string{"", "First", "Second", "Third", "Fourth", "Fifth"}
	if i < len(ordinals) {
		return ordinals[i] + " helper"
	}
	return "Helper " + strconv.Itoa(i)
}
