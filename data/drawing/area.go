package drawing

// Point is a place on a sheet.
type Point struct{ X, Y float64 }

// Area is a rectangle.
type Area struct{ Min, Max Point }

// Width returns the width of the area.
func (a Area) Width() float64 { return a.Max.X - a.Min.X }

// Height returns the height of the area.
func (a Area) Height() float64 { return a.Max.Y - a.Min.Y }

// Centre returns the middle of the area.
func (a Area) Centre() Point { return Point{(a.Min.X + a.Max.X) / 2, (a.Min.Y + a.Max.Y) / 2} }

// Corners returns the four corners of the area.
func (a Area) Corners() []Point {
	return []Point{a.Min, {a.Max.X, a.Min.Y}, a.Max, {a.Min.X, a.Max.Y}}
}

// sides returns for each side how far inside of it a point lies, below 0 outside.
func (a Area) sides() [4]func(Point) float64 {
	return [4]func(Point) float64{
		func(p Point) float64 { return p.X - a.Min.X },
		func(p Point) float64 { return a.Max.X - p.X },
		func(p Point) float64 { return p.Y - a.Min.Y },
		func(p Point) float64 { return a.Max.Y - p.Y },
	}
}

// crossing returns where the line from p to q, one inside and one outside of a
// side, meets it.
func crossing(p, q Point, inside func(Point) float64) Point {
	share := inside(p) / (inside(p) - inside(q))
	return Point{p.X + share*(q.X-p.X), p.Y + share*(q.Y-p.Y)}
}

// ClipLine returns the parts of a line inside the area, in as many pieces as it takes.
func (a Area) ClipLine(line []Point) [][]Point {
	pieces := [][]Point{line}
	for _, inside := range a.sides() {
		var kept [][]Point
		for _, piece := range pieces {
			kept = append(kept, clipLine(piece, inside)...)
		}
		pieces = kept
	}
	return pieces
}

func clipLine(line []Point, inside func(Point) float64) (pieces [][]Point) {
	var piece []Point
	for i, p := range line {
		in := inside(p) >= 0
		if i > 0 && in != (inside(line[i-1]) >= 0) {
			piece = append(piece, crossing(line[i-1], p, inside))
		}
		if in {
			piece = append(piece, p)
		}
		if !in || i == len(line)-1 {
			if len(piece) > 1 {
				pieces = append(pieces, piece)
			}
			piece = nil
		}
	}
	return pieces
}

// ClipPolygon returns the part of a polygon inside the area (Sutherland and Hodgman
// 1974, Communications of the ACM 17(1) 32-42).
func (a Area) ClipPolygon(corners []Point) []Point {
	for _, inside := range a.sides() {
		var kept []Point
		for i, p := range corners {
			before := corners[(i+len(corners)-1)%len(corners)]
			in := inside(p) >= 0
			if in != (inside(before) >= 0) {
				kept = append(kept, crossing(before, p, inside))
			}
			if in {
				kept = append(kept, p)
			}
		}
		corners = kept
	}
	return corners
}
