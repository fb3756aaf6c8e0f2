package view

import (
	"io"
	"strings"

	g "maragu.dev/gomponents"
)

// texts are what stands in the places of a template that are marked $, in their order.
type texts []string

// html draws a template. In it $ stands for the next of the texts, escaped; {} for the next of the nodes, which may
// also be attributes; {tick} for the icon of that name. Line breaks and tabs only lay the template out.
//
// Everything is written out at once rather than kept as a tree: what a page is made of then lives on the stack and in
// constants, which keeps the program that a phone has to load small.
func html(template string, texts texts, nodes ...g.Node) g.Node {
	var b strings.Builder
	for i := 0; i < len(template); i++ {
		switch c := template[i]; c {
		case '\n', '\t':
		case '$':
			_ = g.Text(texts[0]).Render(&b) // a string builder takes everything
			texts = texts[1:]
		case '{':
			end := i + strings.IndexByte(template[i:], '}')
			if icon := template[i+1 : end]; icon != "" {
				write(&b, []g.Node{Icon(icon)}, g.ElementType)
			} else {
				write(&b, nodes[:1], g.AttributeType)
				write(&b, nodes[:1], g.ElementType)
				nodes = nodes[1:]
			}
			i = end
		default:
			b.WriteByte(c)
		}
	}
	return g.Raw(b.String())
}

// el draws an element around nodes. Open is its start tag without the brackets: the name and the attributes that never
// change, as they are written out. Attributes among the nodes follow those.
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
			_ = n.Render(b) // as above
		}
	}
}

// each draws n things, one after the other.
func each(n int, draw func(i int) g.Node) g.Node {
	nodes := make(g.Group, n)
	for i := range nodes {
		nodes[i] = draw(i)
	}
	return nodes
}

// eachText draws a list of words.
func eachText(list []string, draw func(text string) g.Node) g.Node {
	return each(len(list), func(i int) g.Node { return draw(list[i]) })
}

// fixed draws a template without anything to fill in.
func fixed(template string) g.Node { return html(template, nil) }

// set gives an attribute without a value, if it is on.
func set(on bool, attribute string) g.Node {
	if !on {
		return nil
	}
	return g.Attr(attribute)
}

// nothing is drawn where there is nothing to say.
var nothing g.Node = g.Group{}

// these draws nodes one after the other.
func these(nodes ...g.Node) g.Node {
	var b strings.Builder
	write(&b, nodes, g.ElementType)
	return g.Raw(b.String())
}

// attr gives an attribute with its value.
func attr(name, value string) g.Node { return g.Attr(name, value) }

// pick gives one of two values.
func pick[T any](first bool, one, other T) T {
	if first {
		return one
	}
	return other
}

// attributes are attributes that never change, as they are written out.
type attributes string

// Render writes them out.
func (a attributes) Render(w io.Writer) error {
	_, err := io.WriteString(w, " "+string(a))
	return err
}

// Type says that they belong into a start tag.
func (a attributes) Type() g.NodeType { return g.AttributeType }

// glossary gives words for keys.
type glossary [][2]string

// of gives the words for a key, "" if it has none.
func (list glossary) of(key string) string {
	for _, entry := range list {
		if entry[0] == key {
			return entry[1]
		}
	}
	return ""
}
