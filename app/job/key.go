package job

import (
	"strconv"
	"strings"
)

// A key names a card or a pack line, and is the entity of its progress: "card/make/7kq2", "pack/latex/11/coral". Only
// this file writes and parses keys.

const (
	cardNoun = "card"
	packNoun = "pack"
)

// CardKey is the key of a card of a family about the thing with the id, which is empty where a family has one card.
func CardKey(family, id string) string { return key(cardNoun, family, id) }

// PackKey is the key of a line of the pack list, of a family and about the thing with the id, which may be empty.
func PackKey(family, id string) string { return key(packNoun, family, id) }

// LatexKey is the key of the pack line for balloons of a size and colour.
func LatexKey(sizeIn int, colour string) string {
	return PackKey("latex", strconv.Itoa(sizeIn)+"/"+colour)
}

func key(noun, family, id string) string {
	if id == "" {
		return noun + "/" + family
	}
	return noun + "/" + family + "/" + id
}

// IsCard reports whether an entity is a card.
func IsCard(entity string) bool { return nounOf(entity) == cardNoun }

// IsPack reports whether an entity is a line of the pack list.
func IsPack(entity string) bool { return nounOf(entity) == packNoun }

// IsProgress reports whether an entity is a card or a line of the pack list. Operations on these say what was done;
// operations on anything else change what is planned.
func IsProgress(entity string) bool { return IsCard(entity) || IsPack(entity) }

// ValidKey reports whether an entity has the shape of a key: something follows the noun, all of it printable and
// without spaces.
func ValidKey(entity string) bool {
	rest := KeyPath(entity)
	if !IsProgress(entity) || rest == "" || len(entity) > MaxEntityBytes {
		return false
	}
	for _, c := range []byte(rest) {
		if c <= ' ' || c > '~' {
			return false
		}
	}
	return true
}

// KeyPath is a key without its noun, as it stands in addresses: "make/7kq2", "latex/11/coral".
func KeyPath(key string) string {
	_, rest, _ := strings.Cut(key, "/")
	return rest
}

// SplitCard splits a card's key into its family and the id of its thing, which may be empty.
func SplitCard(key string) (family, id string) {
	family, id, _ = strings.Cut(KeyPath(key), "/")
	return family, id
}

func nounOf(entity string) string {
	noun, _, _ := strings.Cut(entity, "/")
	return noun
}
