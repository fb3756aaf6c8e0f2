package task

import (
	"cmp"
	"encoding/json"
	"slices"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/phrase"
	"garlandry/calc/stable"
)

// Progress adds ticks, counts, names and edits to the cards of a design. The pack list must have its own progress
// already. A card that was worked on but is no longer in the design comes back as Gone.
func Progress(j job.Job, design []Card, balloons []count.BalloonLine, pack []packing.Bag) []Card {
	cards := make([]Card, len(design), len(design)+4)
	at := make(map[string]int, len(design))
	for i, c := range design {
		cards[i] = worked(j, c)
		cards[i].reopen(j, balloons, pack)
		at[c.Key] = i
	}
	for i := range cards {
		for _, r := range cards[i].After {
			if before := cards[at[r.Key()]]; !before.Done {
				cards[i].Waits = append(cards[i].Waits, before.Title)
			}
		}
	}
	var lost []Card
	for _, key := range workedOn(j) {
		if _, known := at[key]; known {
			continue
		}
		c := gone(j, key)
		c.Made, c.Done = j.Made(key), j.Done(key)
		if c.Made > 0 || c.Done {
			c.Beyond, c.TakenBy = c.Made, j.TakenBy(key)
			lost = append(lost, c)
		}
	}
	if len(lost) == 0 {
		return cards
	}
	cards = append(cards, lost...)
	stable.Sort(cards, func(a, b Card) int { return cmp.Compare(placeRank(a.Place), placeRank(b.Place)) })
	return cards
}

// worked adds to a card its progress and what a lead changed on it. A card with a count is done when all are made.
// A tick counts those left at that time, so the card opens again when the design grows.
func worked(j job.Job, c Card) Card {
	c.Made, c.Waits = j.Made(c.Key), nil
	ticked := j.Done(c.Key)
	c.Done = ticked
	if c.Count > 0 {
		uncounted := ticked && c.Made == 0 // an early version did not store how many it ticked
		if rest, given := registerNumber(j, c.Key, "have"); ticked && given {
			c.Made, uncounted = c.Made+int(min(rest, 1e6)), false
		}
		c.Done = c.Made >= c.Count || uncounted
		c.Beyond = max(0, c.Made-c.Count)
	}
	c.TakenBy = j.TakenBy(c.Key)
	c.Note = phrase.Field(j, c.Key, "note", "")
	if minutes, given := registerNumber(j, c.Key, "minutes"); given {
		c.Minutes = minutes
		c.MinutesBy = sameFor(minutes)
		c.takesTime()
	}
	if hands, given := registerNumber(j, c.Key, "hands"); given && hands >= 1 {
		c.HandsMin = int(min(hands, 20))
		c.HandsMax = max(c.HandsMax, c.HandsMin)
	}
	return c
}

// registerNumber reads a number from a register. It reports false if none is set.
func registerNumber(j job.Job, entity, field string) (float64, bool) {
	raw := j.State.Register(entity, field).Value()
	var x float64
	if len(raw) == 0 || string(raw) == "null" || json.Unmarshal(raw, &x) != nil || x < 0 {
		return 0, false
	}
	return x, true
}

// workedOn lists the keys of all cards that were ever ticked, counted or edited, sorted.
func workedOn(j job.Job) []string {
	keys := j.State.Entities("card")
	for key := range j.State.Tallies {
		if job.IsCard(key) && len(j.State.Registers[key]) == 0 {
			keys = append(keys, key)
		}
	}
	slices.Sort(keys)
	return keys
}
