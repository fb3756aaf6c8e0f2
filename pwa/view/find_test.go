package view_test

import (
	"net/url"
	"testing"

	"garlandry/pwa/view"

	"github.com/stretchr/testify/assert"
)

func TestFinderIgnoresCaseAndAccents(t *testing.T) {
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
