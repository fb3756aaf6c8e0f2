package view

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/task"
)

// TickWord says in a word what the tick of a card or pack line means: "Loaded", "Packed", "Made".
func TickWord(key string) string {
	if job.IsPack(key) {
		return "Packed"
	}
	family, _ := job.SplitCard(key)
	switch task.Family(family) {
	case task.FamilyShop:
		return "Together"
	case task.FamilyPack:
		return "Packed"
	case task.FamilyLoad, task.FamilyReload:
		return "Loaded"
	case task.FamilyUnload, task.FamilyCarry:
		return "Carried in"
	case task.FamilyMake, task.FamilyAhead, task.FamilyLayer, task.FamilyAccents:
		return "Made"
	case task.FamilyJoin:
		return "Joined"
	case task.FamilyFix, task.FamilyFrame:
		return "Put up"
	case task.FamilyGrow, task.FamilyDress:
		return "Put on"
	case task.FamilyDown:
		return "Taken down"
	}
	return "Done"
}

// PackedWord says what a tick on the pack list means: "Packed", or "At hand" where nothing travels.
func PackedWord(j job.Job) string { return packWordsOf(j).tick }

// countedOf says what a card counts in all, and what counting one means: "22 clusters made".
func countedOf(c task.Card) string { return number(c.Count) + " " + countedWord(c) }

// countedWord is [countedOf] without the number: "clusters made".
func countedWord(c task.Card) string {
	word := strings.ToLower(TickWord(c.Key))
	if c.Unit != "" {
		word = c.Unit + " " + word
	}
	return word
}

// AllMade says that a card's count is full: "All 22 clusters made".
func AllMade(c task.Card) string { return "All " + countedOf(c) }
