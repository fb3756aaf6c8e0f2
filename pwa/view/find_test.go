package view_test

import (
	"net/url"
	"testing"

	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
)

func TestFinderFits(t *testing.T) {
	for _, row := range []struct {
		name, find string
		texts      []string
		fits       bool
	}{
		{"nothing typed", "", []string{"Door"}, true},
		{"blanks", "  ", []string{"Door"}, true},
		{"case", "dOOr", []string{"Door garland"}, true},
		{"typed without accents", "soree creme", []string{"Sorée, Crème"}, true},
		{"typed with accents", "Ströße", []string{"strosse"}, true},
		{"an accent after its letter", "cafe\u0301", []string{"Café"}, true},
		{"words of several texts", "coral 11", []string{"Coral", "11-inch"}, true},
		{"one word is missing", "coral 18", []string{"Coral", "11-inch"}, false},
		{"another alphabet", "шар", []string{"Красный Шар"}, true},
		{"other words", "column", []string{"Door garland"}, false},
		{"the beginning of a word", "gar", []string{"Door garland"}, true},
		{"the end of a word", "land", []string{"Door garland"}, false},
		{"the end, then a beginning", "land", []string{"Garland", "Landing"}, true},
		{"after a hyphen", "inch", []string{"11-inch"}, true},
		{"with a hyphen", "11-in", []string{"11-inch"}, true},
		{"after a bracket", "sand", []string{"Arch (sand)"}, true},
		{"minutes of a time", "3", []string{"doors 11:30"}, false},
		{"a number beside a time", "3", []string{"doors 11:30", "Arch 3"}, true},
		{"a time", "11:3", []string{"doors 11:30"}, true},
		{"the middle of a number", "1", []string{"9.1, 210 and 0,15"}, false},
		{"the beginning of a number", "21", []string{"9.1, 210 and 0,15"}, true},
		{"a number after a comma", "10", []string{"5,10"}, false},
		{"a number after a comma and a blank", "10", []string{"5, 10"}, true},
		{"a day of a date", "8", []string{"2027-05-08", "Sat 8 May"}, true},
		{"a month of a date", "05", []string{"2027-05-08"}, true},
		{"a mark", "·", []string{"Sat·8"}, true},
		{"inside a word of another alphabet", "ар", []string{"Шар"}, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			assert.Equal(t, row.fits, view.Finder{Find: row.find}.Fits(row.texts...))
		})
	}
}

func TestFinderKeepsItsPlace(t *testing.T) {
	for _, row := range []struct {
		name string
		find view.Finder
		want string
	}{
		{"nothing", view.Finder{}, ""},
		{"left alone", view.Finder{Carried: "left=1"}, "?left=1"},
		{"emptied", view.Finder{Typed: true}, "?q="},
		{"as a browser writes it", view.Finder{Find: "a b*~é&", Typed: true}, "?q=a+b*%7E%C3%A9%26"},
		{"both", view.Finder{Find: "x", Carried: "left=1", Typed: true}, "?left=1&q=x"},
	} {
		t.Run(row.name, func(t *testing.T) {
			assert.Equal(t, row.want, row.find.Query())
			_, err := url.ParseQuery(row.find.Query())
			assert.NoError(t, err)
		})
	}
}
