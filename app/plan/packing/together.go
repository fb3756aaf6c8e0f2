package packing

import (
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/phrase"
)

// Together returns how many of each line were there when the card for getting the balloons together was ticked; nil
// while it is not ticked, or if the tick did not store it.
func Together(j job.Job) map[string]int {
	card := job.CardKey("shop", "")
	if !j.Done(card) {
		return nil
	}
	return Stood(j, card)
}

// Stood reads what the tick of a card stands for: how many of each pack line. It returns nil if nothing is stored.
func Stood(j job.Job, card string) map[string]int {
	text := phrase.Field(j, card, "stands", "")
	if text == "" {
		return nil
	}
	counts := map[string]int{}
	for _, line := range strings.Split(text, "\n") {
		key, n, _ := strings.Cut(line, " ")
		counts[key], _ = strconv.Atoi(n) // unreadable counts as none
	}
	return counts
}
