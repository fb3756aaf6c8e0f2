package figures

import "slices"

// clockEntries returns what the forecast assumes besides the minutes of the cards. Do not change the slice.
func clockEntries() []entry { return clockFigures[:] }

var clockFigures = [...]entry{
	{"clock/evenings", "Evenings at home before the day", 3, 0, 7, "evenings", FromMemory},
	{"clock/shop-evening", "Evenings before the day to get the balloons together", 7, 0, 7, "evenings", FromMemory},
	{"clock/evening-hour", "An evening at home begins at", 18.5, 6, 23, "o'clock", FromMemory},
	{"clock/evening-minutes", "An evening at home lasts", 180, 15, 720, "minutes", FromMemory},
	{"clock/morning", "Work at home on the day, before driving off", 90, 0, 600, "minutes", FromMemory},
	{"clock/drive", "The drive to the venue", 20, 0, 600, "minutes", FromMemory},
	{"clock/crowding", "Time lost for each extra person on a card", 5, 0, 50, "%", FromMemory},
	{"clock/pump-hands", "People filling, tying and twisting at one pump", 2, 1, 10, "hands", FromMemory},
	{"clock/helper-hour", "A helper's hour costs", 15, 0, 1000, "in money", CommonPractice},
	{"clock/hire", "Hiring a pump or a ladder costs", 20, 0, 10000, "in money", CommonPractice},
	{"clock/spread", "Spread of the time of your own cards", 25, 0, 100, "%", FromMemory},
	{"clock/spread-kind", "Spread of a whole kind of work", 15, 0, 100, "%", FromMemory},
}

// KindOfWork is a group of cards that learn their speed together.
type KindOfWork struct {
	Name, Label string
	Rows        []string // prefixes of their keys in the time table, without "minutes/"
	// strays is how far a card's time strays for beginners and practised people, in percent. From memory.
	strays [2]uint8
}

// WorkKinds returns the kinds of work. Every row of the time table belongs to one of them.
func WorkKinds() []KindOfWork { return slices.Clone(workKinds[:]) }

var workKinds = [...]KindOfWork{
	{"fill", "Fill, tie and twist", []string{"duplet/", "twist/", "helium/"}, [2]uint8{20, 12}},
	{"join", "Join clusters to a base", []string{"join/"}, [2]uint8{25, 15}},
	{"shape", "Fix and shape a base", []string{"shape-foot/"}, [2]uint8{40, 25}},
	{"fix", "Fix clusters and accents", []string{"fix-cluster/"}, [2]uint8{30, 20}},
	{"set-out", "Set out bouquets and table pieces", []string{"set-out/"}, [2]uint8{25, 20}},
	{"frame", "Put up frames", []string{"frame/", "stand/"}, [2]uint8{40, 25}},
	{"cover", "Panels and cloths", []string{"cover/"}, [2]uint8{40, 25}},
	{"sign", "Hang signs", []string{"sign/"}, [2]uint8{45, 30}},
	{"shine", "Shine spray", []string{"shine-10ft/"}, [2]uint8{25, 15}},
	{"pack", "Pack the bags", []string{"pack-line/"}, [2]uint8{30, 20}},
	{"car", "Load and unload", []string{"car/", "carry/"}, [2]uint8{35, 25}},
	{"trip", "Fetch another car load", nil, [2]uint8{20, 15}},
	{"shop", "Get the balloons together", []string{"shop/"}, [2]uint8{35, 25}},
	{"test", "Test a top bar", []string{"test-bar/"}, [2]uint8{35, 25}},
	{"look", "Walk the room", []string{"look/"}, [2]uint8{40, 30}},
	{"tidy", "Hide ties and sweep", []string{"tidy/"}, [2]uint8{35, 25}},
	{"down", "Take down", []string{"down-10ft/", "down-80/"}, [2]uint8{25, 20}},
	{"strike", "Take apart frames", []string{"strike/", "strike-stand/"}, [2]uint8{25, 20}},
	{"sweep", "Hand the room back", []string{"sweep/"}, [2]uint8{30, 25}},
}

// strayEntries returns how far a card's time strays, for each kind of work and skill: the standard deviation of its
// logarithm for one person.
func strayEntries() []entry {
	rows := make([]entry, 0, 2*len(workKinds))
	for i := range workKinds {
		k := &workKinds[i]
		for at, s := range [...]Skill{Beginner, Practised} {
			rows = append(rows, entry{k.StrayKey(s), k.Label + ", " + string(s), float64(k.strays[at]),
				0, 100, "%", FromMemory})
		}
	}
	return rows
}

// StrayKey returns the key of the figure for how far its times stray at a skill.
func (k *KindOfWork) StrayKey(s Skill) string { return "stray/" + k.Name + "/" + string(s) }

// KindsOfWork returns the names of the kinds of work.
func KindsOfWork() []string {
	names := make([]string, len(workKinds))
	for i := range workKinds {
		names[i] = workKinds[i].Name
	}
	return names
}
