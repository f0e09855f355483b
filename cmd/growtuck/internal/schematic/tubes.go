package schematic

import "math"

// poncho draws a garment without sleeves that is wider towards its hem.
func (d *drawer) poncho() {
	hem, long := d.of("hem", 110)/4, d.of("body_length", 45)
	t := torso{half: hem, deep: math.Min(d.Trade.NeckDrop, long*0.3)}
	t.neck = neckHalf(d.of("neck", 50), t.deep, hem*0.9)
	d.shape(neckline(t.neck, t.deep).line(point{hem, long}, point{0, long}).whole())
	d.is("hem", straight(point{-hem, long}, point{hem, long}), d.of("hem", hem*4)/2)
	edge := long - math.Min(d.Trade.Band, long*d.Trade.HemMost)
	at := t.neck + (hem-t.neck)*edge/long
	d.draw("edge", straight(point{-at, edge}, point{at, edge}))
	d.collar(t)
	d.across("hem", point{-hem, long}, point{hem, long})
	d.down("body_length", 1, 0, long)
}

// legWarmer draws one of two tubes.
func (d *drawer) legWarmer() {
	d.f.small = true
	ankle, calf, high := d.of("ankle", 17)/4, d.of("calf", 26)/4, d.of("leg_height", 23)
	deep := d.cuffDepth(high)
	above := math.Min(calf, ankle/d.Trade.RibShare)
	d.shape(start(0, 0).line(point{calf, 0}, point{calf, deep}, point{above, high - deep}, point{ankle, high}, point{0, high}).whole())
	d.rib(point{-calf, 0}, point{calf, 0}, point{-calf, deep}, point{calf, deep})
	d.rib(point{-above, high - deep}, point{above, high - deep}, point{-ankle, high}, point{ankle, high})
	d.is("lower edge", straight(point{-ankle, high}, point{ankle, high}), d.of("ankle", ankle*4)/2)
	d.is("upper edge", straight(point{-calf, 0}, point{calf, 0}), d.of("calf", calf*4)/2)
	d.across("calf", point{-calf, deep * 1.3}, point{calf, deep * 1.3})
	d.beside("ankle", point{-ankle, high}, point{ankle, high}, point{0, 1})
	d.down("leg_height", 1, 0, high)
}

// balaclava draws a hood, from its side, over the tube for the neck.
func (d *drawer) balaclava() {
	d.f.small = true
	neck, tube := d.of("neck", 38)/4, d.of("neck_height", 10)
	d.shape(start(0, 0).line(point{neck, 0}, point{neck, tube}, point{0, tube}).whole())
	d.rib(point{-neck, 0}, point{neck, 0}, point{-neck, tube}, point{neck, tube})
	d.is("neck", straight(point{-neck, tube}, point{neck, tube}), d.of("neck", neck*4)/2)
	d.hood(torso{half: neck, neck: neck})
	d.down("neck_height", 1, 0, tube)
}
