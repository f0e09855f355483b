package schematic

import "math"

// poncho draws a garment without sleeves that is wider towards its hem.
func (d *drawer) poncho() {
	neck, hem, long := d.of("neck", 50), d.of("hem", 110)/4, d.of("body_length", 45)
	t := torso{half: hem, neck: math.Min(neck*0.18, hem*0.8), deep: long * 0.12}
	low := long * 1.04 // in the middle, as it hangs
	d.shape(t.neckline().line(point{hem, long}).curve(point{hem * 0.6, low}, point{hem * 0.3, low}, point{0, low}).whole())
	d.collar(t)
	d.dim("hem", point{-hem, long}, point{hem, long})
	d.down("body_length", 1, 0, long)
}

// legWarmer draws one of two tubes.
func (d *drawer) legWarmer() {
	d.f.small = true
	ankle, calf, high := d.of("ankle", 17)/4, d.of("calf", 26)/4, d.of("leg_height", 23)
	d.shape(start(0, 0).line(point{calf, 0}, point{calf, high * 0.2}, point{ankle, high * 0.84}, point{ankle, high}, point{0, high}).whole())
	d.edge(straight(point{-calf, high * 0.14}, point{calf, high * 0.14}))
	d.edge(straight(point{-ankle, high * 0.86}, point{ankle, high * 0.86}))
	d.dim("calf", point{-calf, high * 0.2}, point{calf, high * 0.2})
	d.beside("ankle", point{-ankle, high}, point{ankle, high}, point{0, 1.3})
	d.down("leg_height", 1, 0, high)
}

// balaclava draws a hood on a tube for the neck.
func (d *drawer) balaclava() {
	d.f.small = true
	neck, tube := d.of("neck", 38)/4, d.of("neck_height", 10)
	d.shape(start(0, 0).line(point{neck, 0}, point{neck, tube}, point{0, tube}).whole())
	high := d.of("hood_height", 27)
	half := d.of("hood_round", 40) / 4
	p := start(0, 0).line(point{neck, 0})
	p.curve(point{neck, -high * 0.12}, point{half, -high * 0.2}, point{half, -high * 0.52})
	p.corner(point{half, -high}, point{0, -high})
	d.shape(p.whole())
	d.edge(start(0, -high*0.04).corner(point{half * 0.6, -high * 0.04}, point{half * 0.6, -high * 0.48}).
		corner(point{half * 0.6, -high * 0.88}, point{0, -high * 0.88}).whole())
	d.dim("hood_round", point{-half, -high * 0.54}, point{half, -high * 0.54})
	d.beside("neck", point{-neck, tube}, point{neck, tube}, point{0, 1.3})
	d.down("hood_height", 1, -high, 0)
	d.down("neck_height", 1, 0, tube)
}
