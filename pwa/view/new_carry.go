package view

import (
	g "maragu.dev/gomponents"

	"garlandry/pwa/form"
)

// The names of a new job's fields about what comes along from the last one. CarrySays is only shown, never posted.
const (
	StartCarry = "carry"
	CarrySays  = "carry.says"
)

// CarryWords says what comes along: "4 people, 9 things".
func CarryWords(people, things int) string {
	who := number(people) + " " + plural(people, "person", "people")
	switch {
	case people == 0:
		return Many(things, "thing")
	case things == 0:
		return who
	}
	return who + ", " + Many(things, "thing")
}

// startCarry offers the people and kit of the last job. It draws nothing if there are none.
func startCarry(state form.State) g.Node {
	says := state.Get(CarrySays)
	if says == "" {
		return nil
	}
	return g.Group{
		Check(StartCarry, "1", "Use people and kit from my last job ("+says+")", state.Get(StartCarry) != ""),
		Soft("Fewer hands: the first of them come. More: beginners join."),
	}
}
