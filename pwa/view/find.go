package view

import (
	"net/url"
	"strings"
	"unicode"
	"unicode/utf8"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// FieldFind is the field of what a list is searched for.
const FieldFind = "q"

// How many rows a list has before it can be searched: what fits a screen of a phone, where a row is up to 119 pixels
// high, that of a job with its cover up to 200, and the first begins at 160 of 784.
const (
	screenful       = 5
	screenfulOfJobs = 3
)

// Finder is what a list shows of itself.
type Finder struct {
	Find    string // what was typed; empty: everything
	Carried string // another choice of the page as a query, such as "left=1"; empty: none
	Typed   bool   // the form was sent, maybe empty
}

// Query returns the finder as the query of an address, with its question mark. It is written as a browser sends the
// form, so that both are the same place.
func (x Finder) Query() string {
	query := ""
	if x.Carried != "" {
		query = "?" + x.Carried
	}
	if !x.Typed {
		return query
	}
	if query != "" {
		query += "&"
	} else {
		query = "?"
	}
	return query + FieldFind + "=" + escapeQuery(x.Find)
}

// escapeQuery writes a text as a browser writes the value of a field into a query.
func escapeQuery(text string) string {
	return strings.NewReplacer("%2A", "*", "~", "%7E").Replace(url.QueryEscape(text))
}

// on reports whether the list is searched for anything.
func (x Finder) on() bool { return strings.TrimSpace(x.Find) != "" }

// Fits reports whether a row with these texts is shown: each word that was typed begins one of its words or numbers,
// whatever case and accents.
func (x Finder) Fits(texts ...string) bool {
	all := plainLetters(strings.Join(texts, " "))
	for _, word := range strings.Fields(plainLetters(x.Find)) {
		if !begins(all, word) {
			return false
		}
	}
	return true
}

// begins reports whether a word or a number of a text starts with what was typed. Times such as 11:30 and numbers such
// as 9.5 begin once. What starts with another character than a letter or a digit may stand anywhere.
func begins(text, typed string) bool {
	first, width := utf8.DecodeRuneInString(typed)
	before := "" // what was passed
	for {
		passed, rest, found := strings.Cut(text, typed)
		if !found {
			return false
		}
		before += passed
		last, size := utf8.DecodeLastRuneInString(before)
		other, _ := utf8.DecodeLastRuneInString(before[:len(before)-size])
		within := unicode.IsDigit(first) && strings.ContainsRune(":.,", last) && unicode.IsDigit(other)
		if !inWord(first) || !inWord(last) && !within {
			return true
		}
		before, text = before+typed[:width], typed[width:]+rest
	}
}

func inWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

// accented lists letters with accents, each group after its plain letter.
var accented = [...]string{"aàáâãäåāăą", "cçćĉċč", "dďđð", "eèéêëēĕėęě", "gĝğġģ", "hĥħ", "iìíîïĩīĭįı", "jĵ", "kķ",
	"lĺļľŀł", "nñńņňŉ", "oòóôõöøōŏő", "rŕŗř", "sśŝşšș", "tţťŧț", "uùúûüũūŭůűų", "wŵ", "yýÿŷ", "zźżž"}

// plainLetters returns a text in small letters without accents.
func plainLetters(text string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(text) {
		switch {
		case r >= 0x300 && r < 0x370: // an accent of its own, after its letter
			continue
		case r == 'ß':
			b.WriteString("ss")
			continue
		case r == 'æ':
			b.WriteString("ae")
			continue
		case r == 'œ':
			b.WriteString("oe")
			continue
		}
		for i := 0; r > 0x7f && i < len(accented); i++ {
			if strings.ContainsRune(accented[i], r) {
				r = rune(accented[i][0])
			}
		}
		b.WriteRune(r)
	}
	return b.String()
}

// findField draws the search of a list: nothing for a list of as many rows as fit a screen. It says how much of the
// list is shown.
func findField(f Frame, what string, shown, all, fit int) g.Node {
	if all <= fit && !f.Finder.on() {
		return nil
	}
	name, value, carried := strings.Cut(f.Finder.Carried, "=")
	said := ""
	if f.Finder.on() {
		said = number(shown) + " of " + number(all) + " shown"
	}
	return g.Group{
		h.Form(h.Method("get"), h.Action(f.Path), h.ID("find-form"), h.Class("find"), h.Role("search"),
			h.Data("live", f.Path),
			g.If(carried, Hidden(name, value)),
			h.Label(h.Class("vh"), h.For("find"), g.Text("Find "+what)),
			h.Input(h.Type("search"), h.ID("find"), h.Name(FieldFind), h.Value(f.Finder.Find), h.AutoComplete("off"),
				g.Attr("autocapitalize", "off"), g.Attr("enterkeyhint", "search"), h.Placeholder("Find "+what)),
			Submit(Plain, g.Text("Find"))),
		h.Div(h.Class("found"),
			h.P(h.ID("found"), h.Role("status"), g.Text(said)),
			g.If(f.Finder.on(), h.P(PlainLink(f.Path+Finder{Carried: f.Finder.Carried}.Query(), "", "Show all")))),
		g.If(f.Finder.on() && shown == 0,
			Notice(Changed, "care", "Nothing found for “"+strings.TrimSpace(f.Finder.Find)+"”.")),
	}
}
