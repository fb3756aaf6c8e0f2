package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"strings"

	"garlandry/app/plan"
	"garlandry/app/plan/look"
	"garlandry/pwa/view"
)

type pictureCommand struct {
	File  string `arg:"" help:"Job file, or - for standard input."`
	Piece string `help:"Name or id of one piece; without it, all of them side by side."`
	Width int    `default:"1200" help:"Width of the picture in pixels."`
	Out   string `help:"File to write; without it, standard output."`
}

// Run writes the picture of a job, or of one of its pieces, as SVG. Each circle says its size, colour and cluster.
func (c *pictureCommand) Run(s stdio) error {
	if c.Width < 1 || c.Width > 20_000 {
		return usageError{fmt.Errorf("a width of %d pixels; 1 to 20,000 can be drawn", c.Width)}
	}
	j, err := readJob(c.File, s.in)
	if err != nil {
		return err
	}
	p := plan.Design(j)
	seen, name, err := c.look(p)
	if err != nil {
		return usageError{fmt.Errorf("%s: %w", c.File, err)}
	}
	var svg bytes.Buffer
	if err := (view.Front{Look: seen, Label: name, Person: true}).File(c.Width).Render(&svg); err != nil {
		return fmt.Errorf("draw the picture: %w", err)
	}
	svg.WriteByte('\n')
	if c.Out != "" {
		if err := os.WriteFile(c.Out, svg.Bytes(), 0o644); err != nil {
			return fmt.Errorf("write the picture: %w", err)
		}
		return nil
	}
	if _, err := s.out.Write(svg.Bytes()); err != nil {
		return fmt.Errorf("write the picture: %w", err)
	}
	return nil
}

// look finds what to draw.
func (c *pictureCommand) look(p plan.Plan) (seen *look.Look, name string, err error) {
	if c.Piece == "" {
		if seen = p.Room(0); seen == nil {
			return nil, "", errors.New("it has no balloons to draw yet")
		}
		return seen, "All pieces", nil
	}
	var names []string
	for i := range p.Pieces {
		piece := &p.Pieces[i]
		names = append(names, piece.Piece.Name)
		if c.Piece != piece.Piece.ID && !strings.EqualFold(c.Piece, piece.Piece.Name) {
			continue
		}
		if seen = p.Look(piece, 0); seen == nil {
			return nil, "", fmt.Errorf("%s has no balloons to draw yet", piece.Piece.Name)
		}
		return seen, piece.Piece.Name, nil
	}
	return nil, "", fmt.Errorf("no piece is called %q; there are: %s", c.Piece, strings.Join(names, ", "))
}
