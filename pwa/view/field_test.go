package view_test

import (
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"

	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/pwa/view"
)

type selection = goquery.Selection

var palette = []job.Colour{{ID: "coral", Name: "Coral", Value: "#e5604d"},
	{ID: "sand", Name: hostile, Value: "#dcbd8c"}}

// TestEveryFieldKindIsDrawn draws each kind with a wrong value. The value must stay as typed, with the error attached.
func TestEveryFieldKindIsDrawn(t *testing.T) {
	for kind, row := range map[job.FieldKind]struct{ input, attr, want string }{
		job.Text:        {"input[type=text]", "maxlength", "80"},
		job.LongText:    {"textarea", "rows", "3"},
		job.Length:      {"input[type=text]", "spellcheck", "false"},
		job.SmallLength: {"input[type=text]", "spellcheck", "false"},
		job.Mass:        {"input[type=text]", "spellcheck", "false"},
		job.Temperature: {"input[type=text]", "spellcheck", "false"},
		job.Recipe:      {"input[type=text]", "autocapitalize", "off"},
		job.Lengths:     {"input[type=text]", "autocapitalize", "off"},
		job.Whole:       {"input[type=text]", "inputmode", "numeric"},
		job.Number:      {"input[type=text]", "inputmode", "decimal"},
		job.Day:         {"input", "type", "date"},
		job.PointInTime: {"input", "type", "datetime-local"},
		job.HexColour:   {"input", "type", "color"},
		job.Reference:   {"select", "name", "x"},
	} {
		doc := tree(
			t,
			view.FieldInput(
				view.Field{Field: job.Field{Name: "x", Label: "Wanted", Help: "Helps.", Kind: kind, Max: 40, Required: true},
					Typed: map[string][]string{"x": {hostile}}, Error: "Not like that", Units: measure.Metric},
			),
		)
		input := doc.Find(row.input + "[name=x]")
		if !assert.Equal(t, 1, input.Length(), string(kind)) {
			continue
		}
		assert.Equal(t, row.want, input.AttrOr(row.attr, ""), string(kind))
		typed := input.AttrOr("value", input.Text())
		if kind == job.Reference {
			typed = input.Find("option[selected]").AttrOr("value", "")
		}
		assert.Equal(t, hostile, typed, string(kind))
		assert.Contains(t, doc.Find("label[for='"+input.AttrOr("id", "?")+"']").Text(), "Wanted", string(kind))
		assert.Equal(t, "true", input.AttrOr("aria-invalid", ""), string(kind))
		assert.Equal(t, "f-x-help f-x-error", input.AttrOr("aria-describedby", ""), string(kind))
		assert.Contains(t, doc.Find("#f-x-error").Text(), "Not like that", string(kind))
	}
}

func TestNegativeNumbersGetAKeypadWithAMinus(t *testing.T) {
	doc := tree(t,
		view.FieldInput(view.Field{Field: job.Field{Name: "accents", Label: "Accents", Kind: job.Whole, Min: -1, Max: 2000}}))
	_, numeric := doc.Find("input").Attr("inputmode")
	assert.False(t, numeric)
}

func TestEveryFieldOfEveryNounHasALabel(t *testing.T) {
	fields := 0
	for _, n := range append(job.Nouns(), job.Noun{Name: "progress", Fields: job.ProgressFields()}) {
		for _, field := range n.Fields {
			fields++
			doc := tree(t,
				view.FieldInput(view.Field{Field: field, Colours: palette, Options: []job.Choice{{Value: "f1", Label: "Frame"}}}))
			doc.Find("input:not([type=hidden]), select, textarea").Each(func(_ int, s *selection) {
				id := s.AttrOr("id", "?")
				labelled := doc.Find("label[for='"+id+"']").Length() > 0 || s.Closest("label").Length() > 0 ||
					s.AttrOr("aria-label", "") != ""
				assert.True(t, labelled, "%s.%s", n.Name, field.Name)
			})
			assert.Positive(t, doc.Find("input, select, textarea").Length(), "%s.%s", n.Name, field.Name)
		}
	}
	assert.Greater(t, fields, 60)
}

func TestChoicesKeepWhatIsPicked(t *testing.T) {
	few := job.Field{Name: "place", Label: "Place", Kind: job.OneOf,
		Choices: []job.Choice{{Value: "in", Label: "In"}, {Value: "out", Label: "Out"}}}
	doc := tree(t, view.FieldInput(view.Field{Field: few, Typed: map[string][]string{"place": {"out"}}}))
	assert.Equal(t, "out", doc.Find("fieldset input[type=radio][checked]").AttrOr("value", ""))
	many := few
	for _, v := range []string{"a", "b", "c"} {
		many.Choices = append(many.Choices, job.Choice{Value: v, Label: v})
	}
	doc = tree(t, view.FieldInput(view.Field{Field: many, Typed: map[string][]string{"place": {"b"}}}))
	assert.Equal(t, "b", doc.Find("select option[selected]").AttrOr("value", ""))
}

func TestFlagPostsAndRemembers(t *testing.T) {
	field := job.Field{Name: "home", Label: "Helps at home", Kind: job.Flag}
	on := tree(t, view.FieldInput(view.Field{Field: field, Typed: map[string][]string{"home": {"1"}, "was.home": {"1"}}}))
	assert.Equal(t, 1, on.Find("input[type=checkbox][value='1'][checked]").Length())
	assert.Equal(t, "1", on.Find("input[type=hidden][name='was.home']").AttrOr("value", ""))
	off := tree(t, view.FieldInput(view.Field{Field: field}))
	assert.Equal(t, 0, off.Find("[checked]").Length())
}

func TestSizesSharesAndCounts(t *testing.T) {
	sizes := tree(
		t,
		view.FieldInput(
			view.Field{Field: job.Field{Name: "sizes", Label: "Sizes", Kind: job.SizeList},
				Typed: map[string][]string{"sizes": {"5", "18"}}},
		),
	)
	assert.Equal(t, len(job.Sizes), sizes.Find("input[type=checkbox][name=sizes]").Length())
	assert.Equal(t, 2, sizes.Find("[checked]").Length())

	shares := tree(
		t,
		view.FieldInput(view.Field{Field: job.Field{Name: "colours", Label: "Colours", Kind: job.Shares}, Colours: palette,
			Typed: map[string][]string{
				"colours.coral":     {"two"},
				"was.colours.coral": {"2"},
			}, Errors: map[string]string{"colours.coral": "A number such as 2"}}),
	)
	coral := shares.Find("input[name='colours.coral']")
	assert.Equal(t, "two", coral.AttrOr("value", ""))
	assert.Equal(t, "A number such as 2", shares.Find("#"+coral.AttrOr("aria-describedby", "none")).Text())
	assert.Equal(t, "2", shares.Find("input[name='was.colours.coral']").AttrOr("value", ""))
	assert.Contains(t, shares.Text(), hostile, "a colour's name must be escaped")

	counts := tree(
		t,
		view.FieldInput(
			view.Field{Field: job.Field{Name: "counts", Label: "Balloons", Kind: job.TypedCounts}, Colours: palette,
				Typed: map[string][]string{"counts.0.count": {"24"}, "counts.0.size": {"18"}, "counts.0.colour": {"sand"},
					"counts.2.count": {"7"}, "counts.bad.count": {"1"}, "counts.9999.count": {"1"}}},
		),
	)
	assert.Equal(t, 5, counts.Find("tbody tr").Length(), "three filled rows and two empty ones")
	assert.Equal(t, "18", counts.Find("select[name='counts.0.size'] option[selected]").AttrOr("value", ""))
	assert.Equal(t, "sand", counts.Find("select[name='counts.0.colour'] option[selected]").AttrOr("value", ""))
	assert.Equal(t, "7", counts.Find("input[name='counts.2.count']").AttrOr("value", ""))
}
