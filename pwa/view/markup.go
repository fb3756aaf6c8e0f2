package view

import (
	"strings"

	g "maragu.dev/gomponents"
)

// el draws an element. Open is its start tag without the brackets: the name and the attributes that never change, as
// they are written out. Attributes among the children follow those.
//
// The element is written out at once rather than kept as a tree: what a page is made of then lives on the stack, which
// keeps the program that a phone has to load small.
func el(open string, children ...g.Node) g.Node {
	var b strings.Builder
	b.WriteString("<")
	b.WriteString(open)
	write(&b, children, g.AttributeType)
	b.WriteString(">")
	name, _, _ := strings.Cut(open, " ")
	if !strings.Contains(voidElements, " "+name+" ") {
		write(&b, children, g.ElementType)
		b.WriteString("</")
		b.WriteString(name)
		b.WriteString(">")
	}
	return g.Raw(b.String())
}

// voidElements have no content and no end tag.
const voidElements = " area base br col embed hr img input link meta source track wbr "

// txt draws an element that holds a text.
func txt(open, text string) g.Node { return el(open, g.Text(text)) }

// write renders either the attributes or the content among some nodes.
func write(b *strings.Builder, nodes []g.Node, kind g.NodeType) {
	for _, n := range nodes {
		if n == nil {
			continue
		}
		if group, ok := n.(g.Group); ok {
			write(b, group, kind)
			continue
		}
		own := g.ElementType
		if typed, ok := n.(interface{ Type() g.NodeType }); ok {
			own = typed.Type()
		}
		if own == kind {
			_ = n.Render(b) // a string builder takes everything
		}
	}
}
