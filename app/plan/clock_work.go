package plan

import (
	"strings"

	"garlandry/app/job"
)

// clockEntries is what the clock assumes beside the minutes of the cards; read it, never change it.
func clockEntries() []entry { return clockFigures[:] }

var clockFigures = [...]entry{
	{"clock/evenings", "Evenings at home before the day", 3, 0, 7, "evenings", FromMemory},
	{"clock/evening-hour", "Evenings at home begin at", 18.5, 6, 23, "o'clock", FromMemory},
	{"clock/evening-minutes", "An evening at home lasts", 180, 15, 720, "minutes", FromMemory},
	{"clock/morning", "On the day, before driving off, work at home for", 90, 0, 600, "minutes", FromMemory},
	{"clock/drive", "The drive to the venue", 20, 0, 600, "minutes", FromMemory},
	{"clock/crowding", "Lost of every pair of hands for each further one on a card", 5, 0, 50, "%", FromMemory},
	{"clock/pump-hands", "People who fill, tie and twist beside one pump", 2, 1, 10, "hands", FromMemory},
	{"clock/helper-hour", "A helper's hour costs", 15, 0, 1000, "in money", CommonPractice},
	{"clock/hire", "Hiring a pump or a ladder costs", 20, 0, 10000, "in money", CommonPractice},
	{"clock/spread", "How far the time of one card strays", 25, 0, 100, "%", FromMemory},
	{"clock/spread-kind", "How far a whole kind of work strays", 15, 0, 100, "%", FromMemory},
}

// kindOfWork is cards whose speed is learnt together: by the rows of the time table that make up their minutes.
type kindOfWork struct {
	name, label string
	rows        []string // beginnings of the keys below "minutes/"
}

// kindsOfWork lists them; every row of the time table belongs to one of them.
var kindsOfWork = [...]kindOfWork{
	{"fill", "Fill, tie and twist", []string{"duplet/", "twist/", "helium/"}},
	{"join", "Join clusters to a base", []string{"join/"}},
	{"shape", "Fix and shape a base", []string{"shape-foot/"}},
	{"fix", "Fix clusters and accents", []string{"fix-cluster/"}},
	{"set-out", "Set out bouquets and table pieces", []string{"set-out/"}},
	{"frame", "Frames up", []string{"frame/"}},
	{"cover", "Panels and cloths", []string{"cover/"}},
	{"sign", "Hang signs", []string{"sign/"}},
	{"shine", "Shine spray", []string{"shine-10ft/"}},
	{"pack", "Pack the bags", []string{"pack-line/"}},
	{"car", "Load and unload", []string{"car/"}},
	{"shop", "Get the balloons together", []string{"shop/"}},
	{"test", "Test a top bar", []string{"test-bar/"}},
	{"look", "Walk the room", []string{"look/"}},
	{"tidy", "Hide ties and sweep", []string{"tidy/"}},
	{"down", "Take down", []string{"down-10ft/", "down-80/"}},
	{"strike", "Frames down", []string{"strike/"}},
	{"sweep", "Hand the room back", []string{"sweep/"}},
}

// kindOf is the kind of work of a card; "" for the user's own cards, whose minutes are theirs.
func kindOf(c *Card, kind job.PieceKind) string {
	family, _, _ := strings.Cut(strings.TrimPrefix(c.Key, "card/"), "/")
	switch family {
	case "make", "ahead", "accents":
		return "fill"
	case "dress":
		return "fix"
	case "load", "unload", "reload":
		return "car"
	case "fix":
		switch kind {
		case job.Numbers, job.Free:
			return "fix"
		case job.Bouquets, job.Tables:
			return "set-out"
		}
		return "shape"
	case "added":
		return ""
	}
	return family
}

// KindsOfWork names the kinds of work that are learnt.
func KindsOfWork() []string {
	names := make([]string, len(kindsOfWork))
	for i := range kindsOfWork {
		names[i] = kindsOfWork[i].name
	}
	return names
}
