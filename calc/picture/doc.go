// Package picture computes where each balloon of a piece is, seen from the front and to scale. A picture has exactly
// the balloons that it is asked for.
//
// Measures are in millimetres: X to the right, Y up, depth towards the viewer. Standing pieces have the floor at Y =
// 0. A garland stays where its line is, see [OnFloor].
//
// Garlands show the rest positions of calc/softsphere. Columns and walls are rings around poles, because a pole
// keeps order. Bouquets, table pieces and free pieces are piles of balls. Number frames are spread evenly over their
// bars.
//
// The package knows sizes and recipes, but not colours, pieces or how anything is drawn. It uses only sums,
// products, quotients and square roots, and has no randomness, so server and phone draw the same picture. The line
// of a garland is from calc/outline, which is equal to within rounding.
//
// Start at Strung, Column, Wall, Bouquets, Digits, Heap or Free. Then On adds accents.
package picture
