package page

import (
	"slices"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// offerCarry puts into a new job's form whose people and kit can be carried over. A fresh form has the offer accepted,
// and as many hands as there are people.
func (r *request) offerCarry(state form.State, fresh bool) {
	last := r.latest()
	if len(last.Crew)+len(last.Kit) == 0 {
		return
	}
	state.Values.Set(view.CarrySays, view.CarryWords(len(last.Crew), len(last.Kit)))
	if !fresh {
		return
	}
	state.Values.Set(view.StartCarry, "1")
	if n := len(last.Crew); n > 0 {
		state.Values.Set(view.StartCrew, strconv.Itoa(min(n, mostCarried)))
	}
}

// mostCarried is the largest crew that the form of a new job can ask for.
const mostCarried = 20

// carry copies people and kit of the last job if the form says so: as many people as there are hands, in their order.
// It returns how many people came along; the others are made as in any new job.
func (s *starter) carry(last *job.Job, hands int) (people int) {
	if s.typed.Get(view.StartCarry) == "" || last.State == nil {
		return 0
	}
	people = min(hands, len(last.Crew))
	stay := map[string]bool{}
	for i := range last.Crew {
		stay[last.Crew[i].ID] = i >= people
	}
	for _, c := range designOf(last, "member", "kit") {
		noun, id, _ := strings.Cut(c.Entity, "/")
		if noun == "member" && stay[id] || c.Field == "driver" && stay[textOf(c)] {
			continue
		}
		s.used[c.Entity] = true
		s.changes = append(s.changes, c)
	}
	return people
}

// designOf returns the changes that make a job's entities of the nouns anew, without times and progress.
func designOf(j *job.Job, nouns ...string) []job.Change {
	data, err := job.EncodeFile(*j)
	if err != nil {
		return nil
	}
	all, err := job.DecodeFile(data)
	if err != nil {
		return nil
	}
	return slices.DeleteFunc(all, func(c job.Change) bool {
		noun, _, _ := strings.Cut(c.Entity, "/")
		return !copied(c) || !slices.Contains(nouns, noun)
	})
}

// textOf returns the text that a change sets, "" for any other value.
func textOf(c job.Change) string {
	text, err := strconv.Unquote(string(c.Value))
	if err != nil {
		return ""
	}
	return text
}
