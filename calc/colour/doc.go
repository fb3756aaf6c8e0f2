// Package colour measures and shades colours: how different two look ([Difference]), how they look to people who see
// fewer colours ([RGB.Seen]), and how a balloon of a colour and finish is shaded ([Shades]).
//
// It takes sRGB colours, as a screen shows them (IEC 61966-2-1). It does not know palettes, names or pictures.
package colour
