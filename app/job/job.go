package job

import (
	"cmp"
	"encoding/json"
	"strings"

	"garlandry/calc/stable"
)

// Brief is what was promised, where and when.
type Brief struct {
	Title      string   `json:"title"`
	Date       string   `json:"date"`
	Venue      string   `json:"venue"`
	Place      string   `json:"place"`
	AltitudeMM float64  `json:"altitude_mm"`
	PrepC      float64  `json:"prep_c"`
	VenueC     float64  `json:"venue_c"`
	In         Moment   `json:"in"`
	Doors      Moment   `json:"doors"`
	Until      Moment   `json:"until"` // helium must float so long; empty: some hours after the doors
	Down       Moment   `json:"down"`
	Travel     string   `json:"travel"`    // car, none
	DriveMin   *float64 `json:"drive_min"` // one way; nil: by the table
	Floor      string   `json:"floor"`
	Fixing     string   `json:"fixing"`
	Power      string   `json:"power"`
	Parking    string   `json:"parking"`
	CarryMM    float64  `json:"carry_mm"`  // from the car to where it hangs, one way; 0: close by
	Flights    int      `json:"flights"`   // of stairs
	LiftBags   int      `json:"lift_bags"` // that a lift takes on one ride; 0: no lift
	Trolley    bool     `json:"trolley"`   // gets through
	WindMPS    *float64 `json:"wind_mps"`  // mean wind expected; nil: not said
	GustMPS    *float64 `json:"gust_mps"`  // nil: not said
	Sun        string   `json:"sun"`       // shade, sun
	Rain       string   `json:"rain"`      // dry, rain
	DoorMM     float64  `json:"door_mm"`   // the narrowest doorway on the way in; 0: two pass each other
	// Of the wall that is decorated; 0: not said.
	RoomWidthMM  float64  `json:"room_width_mm"`
	RoomHeightMM float64  `json:"room_height_mm"`
	Allergy      string   `json:"allergy"`
	Children     string   `json:"children"`
	Notes        string   `json:"notes"`
	Units        string   `json:"units"`
	Zone         string   `json:"zone"`
	SparePct     *float64 `json:"spare_pct"` // nil: by the table
	SurePct      float64  `json:"sure_pct"`
	Archived     bool     `json:"away"`
}

// Contact is the client, for the owner alone. It is zero in a helper's job.
type Contact struct {
	Name   string `json:"name"`
	Phone  string `json:"phone"`
	Email  string `json:"email"`
	Agreed string `json:"agreed"`
}

// Colour is one balloon colour of the palette and the sizes it can be had in.
type Colour struct {
	ID     string  `json:"-"`
	Name   string  `json:"name"`
	Value  string  `json:"value"` // "#rrggbb"
	Finish string  `json:"finish"`
	Sizes  []int   `json:"sizes"` // nominal inches
	Order  float64 `json:"order"`
}

// Has reports whether the colour can be had in the size.
func (c Colour) Has(sizeIn int) bool {
	for _, s := range c.Sizes {
		if s == sizeIn {
			return true
		}
	}
	return false
}

// Span is a time from one moment to a later one.
type Span struct {
	From Moment `json:"from"`
	To   Moment `json:"to"`
}

// ReadSpans returns the times in a field of kind [Spans]; none if the value is something else.
func ReadSpans(value json.RawMessage) (spans []Span) {
	_ = json.Unmarshal(value, &spans) // an error leaves none
	return spans
}

// MaxSpans is how many spans one field holds.
const MaxSpans = 12

// Member is one of the crew.
type Member struct {
	ID     string  `json:"-"`
	Name   string  `json:"name"`
	Skill  string  `json:"skill"` // beginner or practised
	From   Moment  `json:"from"`
	To     Moment  `json:"to"`
	Home   bool    `json:"home"`
	Drives bool    `json:"drives"`
	Again  []Span  `json:"again"` // other times at which they are there; those before the day are evenings at home
	Order  float64 `json:"order"`
}

// Kit is a thing that comes home again.
type Kit struct {
	ID          string  `json:"-"`
	Kind        string  `json:"kind"` // frame, pole, digits, pump, ladder, car, cylinder, other
	Name        string  `json:"name"`
	Count       int     `json:"count"`
	WidthMM     float64 `json:"width_mm"`
	HeightMM    float64 `json:"height_mm"`
	FeetDepthMM float64 `json:"feet_depth_mm"` // front to back; 0: not known
	FeetWidthMM float64 `json:"feet_width_mm"` // side to side; 0: as wide as it is
	TestedMM    float64 `json:"tested_mm"`     // span at which the top bar was tested; 0: never
	// The bench test at TestedMM: what was hung at the middle, the dip under it, the dip that stayed; 0: not written down.
	TestWeightG float64 `json:"test_weight_g"`
	TestDipMM   float64 `json:"test_dip_mm"`
	TestStaysMM float64 `json:"test_stays_mm"`
	WeightG     float64 `json:"weight_g"` // of one; 0: not known
	Frame       string  `json:"frame"`    // that a sign or cloth hangs on, an id in the kit; empty: not said
	AtMM        float64 `json:"at_mm"`    // where its middle hangs, from the left post; 0: at the middle
	Litres      float64 `json:"litres"`
	LongestMM   float64 `json:"longest_mm"`
	Driver      string  `json:"driver"` // id of a member; empty: anyone who can drive
	GasL        float64 `json:"gas_l"`  // of a full cylinder, as it comes out; 0: not said
	Notes       string  `json:"notes"`
	Order       float64 `json:"order"`
}

// Added is a line that the user added to a list.
type Added struct {
	ID      string  `json:"-"`
	List    string  `json:"list"` // pack, home, load, site, takedown
	Text    string  `json:"text"`
	Count   int     `json:"count"`
	Bag     string  `json:"bag"`
	Minutes float64 `json:"minutes"`
	Hands   int     `json:"hands"`
	Order   float64 `json:"order"`
}

// Override is the user's own figure in place of a table's.
type Override struct {
	Value *float64 `json:"value"`
	Note  string   `json:"note"`
}

// Job is the typed reading of a state. Lists are in the user's order, removed entities left out.
type Job struct {
	ID        string
	Brief     Brief
	Contact   Contact
	Colours   []Colour
	Crew      []Member
	Kit       []Kit
	Pieces    []Piece
	Layers    []Layer // on pieces that are in the job
	Added     []Added
	Photos    []Photo
	Boxes     []Box
	Overrides map[string]Override // by table key, without the noun
	Choices   map[string]string   // by plan key, without the noun
	Prices    map[string]string   // the owner's own, by what is bought, as typed: "100 for 9.90"; empty for helpers
	State     *State              // for progress and history: see [Job.Done], [Job.Made], [Job.Packed]
	Private   *State              // the owner's own log, empty for helpers
}

// Read returns the job that a shared state and the owner's private state hold. A field whose value this build cannot
// read counts as not set. Private may be nil.
func Read(id string, shared, private *State) Job {
	if private == nil {
		private = NewState()
	}
	j := Job{ID: id, State: shared, Private: private, Overrides: map[string]Override{},
		Choices: map[string]string{}, Prices: map[string]string{}}
	read(shared, &briefNoun, "brief", &j.Brief)
	read(private, &contactNoun, "own/contact", &j.Contact)
	list(shared, &colourNoun, func(id string) any {
		j.Colours = append(j.Colours, Colour{ID: id})
		return &j.Colours[len(j.Colours)-1]
	})
	list(shared, &memberNoun, func(id string) any {
		j.Crew = append(j.Crew, Member{ID: id})
		return &j.Crew[len(j.Crew)-1]
	})
	list(shared, &kitNoun, func(id string) any {
		j.Kit = append(j.Kit, Kit{ID: id})
		return &j.Kit[len(j.Kit)-1]
	})
	list(shared, &pieceNoun, func(id string) any {
		j.Pieces = append(j.Pieces, Piece{ID: id})
		return &j.Pieces[len(j.Pieces)-1]
	})
	list(shared, &layerNoun, func(id string) any {
		j.Layers = append(j.Layers, Layer{ID: id})
		return &j.Layers[len(j.Layers)-1]
	})
	all := j.Layers
	j.Layers = nil
	for i := range all {
		if _, known := j.Piece(all[i].Piece); known {
			j.Layers = append(j.Layers, all[i])
		}
	}
	list(shared, &addedNoun, func(id string) any {
		j.Added = append(j.Added, Added{ID: id})
		return &j.Added[len(j.Added)-1]
	})
	j.readPhotos(shared)
	list(shared, &boxNoun, func(id string) any {
		j.Boxes = append(j.Boxes, Box{ID: id})
		return &j.Boxes[len(j.Boxes)-1]
	})
	for _, entity := range shared.Entities("override") {
		var o Override
		if read(shared, &overrideNoun, entity, &o); o.Value != nil && !shared.Removed(entity) {
			j.Overrides[strings.TrimPrefix(entity, "override/")] = o
		}
	}
	for _, entity := range shared.Entities("choice") {
		takeText(shared, entity, "choice/", "pick", j.Choices)
	}
	for _, entity := range private.Entities("own/prices") {
		takeText(private, entity, "own/prices/", "bags", j.Prices)
	}
	return j
}

// takeText stores a field's text under its entity's key unless it is empty.
func takeText(s *State, entity, prefix, field string, into map[string]string) {
	var text string
	if json.Unmarshal(s.Register(entity, field).Value(), &text) == nil && text != "" {
		into[strings.TrimPrefix(entity, prefix)] = text
	}
}

// ReadBrief returns only the brief, for a list of jobs.
func ReadBrief(shared *State) Brief {
	var b Brief
	read(shared, &briefNoun, "brief", &b)
	return b
}

// read fills a typed noun from an entity's registers, with the field's default where nothing valid is set.
func read(s *State, n *Noun, entity string, into any) {
	object := []byte{'{'}
	for i := range n.Fields {
		f := &n.Fields[i]
		if v := current(s, f, entity); len(v) > 0 {
			object = append(object, '"')
			object = append(object, f.Name...)
			object = append(object, '"', ':')
			object = append(object, v...)
			object = append(object, ',')
		}
	}
	if last := len(object) - 1; last > 0 {
		object[last] = '}'
		_ = json.Unmarshal(object, into) // every value passed its check, so a misfit leaves the zero value
	}
}

// current returns a field's value, the default where nothing valid is set.
func current(s *State, f *Field, entity string) json.RawMessage {
	v := s.Register(entity, f.Name).Value()
	if len(v) == 0 || string(v) == "null" || f.Check(v) != nil {
		return json.RawMessage(f.Default)
	}
	return v
}

// list reads the entities of a noun that are in the job, in the user's order, each into what grow returns for its id.
func list(s *State, n *Noun, grow func(id string) any) {
	type place struct {
		entity string
		order  float64
	}
	var all []place
	for _, entity := range s.Entities(n.Name) {
		if s.Removed(entity) || !s.present(entity, n) {
			continue
		}
		at := place{entity: entity}
		_ = json.Unmarshal(current(s, &orderField, entity), &at.order) // a number, for it passed its check
		all = append(all, at)
	}
	stable.Sort(all, func(a, b place) int { return cmp.Compare(a.order, b.order) })
	for _, at := range all {
		read(s, n, at.entity, grow(strings.TrimPrefix(at.entity, n.Name+"/")))
	}
}

// present reports whether every required field without a default is set. If not, the entity has only half arrived.
func (s *State) present(entity string, n *Noun) bool {
	for i := range n.Fields {
		f := &n.Fields[i]
		if f.Required && f.Default == "" && len(s.Register(entity, f.Name).Value()) == 0 {
			return false
		}
	}
	return true
}

// Colour returns the palette's colour with the id.
func (j Job) Colour(id string) (Colour, bool) {
	for _, c := range j.Colours {
		if c.ID == id {
			return c, true
		}
	}
	return Colour{}, false
}

// Piece returns the piece with the id.
func (j Job) Piece(id string) (Piece, bool) {
	for _, p := range j.Pieces {
		if p.ID == id {
			return p, true
		}
	}
	return Piece{}, false
}

// KitItem returns the kit with the id.
func (j Job) KitItem(id string) (Kit, bool) {
	for _, k := range j.Kit {
		if k.ID == id {
			return k, true
		}
	}
	return Kit{}, false
}

// Done reports whether the card with the plan key is ticked.
func (j Job) Done(key string) bool { return string(j.State.Register(key, "done").Value()) == "true" }

// Made is how many of a counting card have been made; never negative.
func (j Job) Made(key string) int { return int(max(0, j.State.Tally(key).Total())) }

// Packed is how many of a pack line went into its bag, 0 if none.
func (j Job) Packed(key string) int { return j.amount(key, "have") }

// Back is how many of a pack line are back in the car after take-down, 0 if none.
func (j Job) Back(key string) int { return j.amount(key, "back") }

// Bought is how many of a pack line were ticked as bought, 0 if none.
func (j Job) Bought(key string) int { return j.amount(key, "bought") }

// Unneeded reports whether somebody set a pack line aside as not needed.
func (j Job) Unneeded(key string) bool {
	return string(j.State.Register(key, "unneeded").Value()) == "true"
}

func (j Job) amount(key, field string) int {
	var n float64
	_ = json.Unmarshal(j.State.Register(key, field).Value(), &n) // unreadable counts as none
	return int(max(0, min(n, 1e9)))
}

// TakenBy is the name of who took the card, empty if nobody did.
func (j Job) TakenBy(key string) string {
	var name string
	_ = json.Unmarshal(j.State.Register(key, "taken").Value(), &name) // unreadable counts as nobody
	return name
}
