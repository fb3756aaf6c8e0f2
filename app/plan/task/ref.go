package task

import "garlandry/app/job"

// Family is a kind of card. It has one card for each thing, or just one card.
type Family string

// The families of cards.
const (
	FamilyShop    Family = "shop"    // get the balloons together
	FamilyTest    Family = "test"    // test a top bar, by frame
	FamilyUnload  Family = "unload"  // carry everything in
	FamilyTrip    Family = "trip"    // fetch another car load, by trip
	FamilyCarry   Family = "carry"   // carry sections in, by piece
	FamilyLook    Family = "look"    // walk the room
	FamilyFrame   Family = "frame"   // put up, by frame
	FamilyCover   Family = "cover"   // hang a cloth or panel, by kit
	FamilyAhead   Family = "ahead"   // make some at home, by piece
	FamilyMake    Family = "make"    // make, by piece
	FamilyAccents Family = "accents" // make the accents, by piece
	FamilyLayer   Family = "layer"   // make a layer, by layer
	FamilyJoin    Family = "join"    // join clusters to a base, by piece
	FamilyFix     Family = "fix"     // put up, by piece
	FamilyGrow    Family = "grow"    // put a layer on, by layer
	FamilyDress   Family = "dress"   // put the accents on, by piece
	FamilySign    Family = "sign"    // hang, by kit
	FamilyAdded   Family = "added"   // written by the user
	FamilyPack    Family = "pack"    // pack the bags
	FamilyLoad    Family = "load"    // load the car
	FamilyShine   Family = "shine"   // spray
	FamilyTidy    Family = "tidy"    // the last look
	FamilyDown    Family = "down"    // take down, by piece
	FamilyStrike  Family = "strike"  // take apart, by frame
	FamilyReload  Family = "reload"  // kit back into the car
	FamilySweep   Family = "sweep"   // clean up
)

// Of refers to the card of the family about the thing with the id.
func (f Family) Of(id string) Ref { return Ref{f, id} }

// Only refers to the card of a family that has just one.
func (f Family) Only() Ref { return Ref{Family: f} }

// Ref refers to a card, which need not be in the plan.
type Ref struct {
	Family Family
	ID     string // what the card is about; "" if its family has just one card
}

// Key returns the key of the card.
func (r Ref) Key() string { return job.CardKey(string(r.Family), r.ID) }

// RefTo returns the reference for a key.
func RefTo(key string) Ref {
	family, id := job.SplitCard(key)
	return Ref{Family(family), id}
}

// Keys returns the keys of references.
func Keys(refs []Ref) []string {
	keys := make([]string, len(refs))
	for i, r := range refs {
		keys[i] = r.Key()
	}
	return keys
}

// MarshalText writes the key.
func (r Ref) MarshalText() ([]byte, error) { return []byte(r.Key()), nil }

// UnmarshalText reads a key.
func (r *Ref) UnmarshalText(key []byte) error {
	*r = RefTo(string(key))
	return nil
}
