package datasets

import "firstbolt/model"

// ordinaryBike is what a bike weighs where not every mass is known: a hardtail of the inexpensive kind (judgement).
const ordinaryBike = model.Grams(15_000)

// seatRider puts the rider on every bike: the fit rules compare what the rider said with what parts are made for.
func (l *loader) seatRider() {
	for i := range l.shed.Bikes {
		b := &l.shed.Bikes[i]
		b.Fitted = append(b.Fitted, model.Fitted{Slot: model.RiderSlot, Part: "you", Facts: l.riderFacts(b), Origin: model.Origin{Sheet: "rider.csv"}})
	}
}

// riderFacts are the rider's facts on one bike. What the rider did not say is no fact.
func (l *loader) riderFacts(b *model.Bike) model.Facts {
	rider, facts := &l.shed.Rider, model.Facts{}
	say := func(name string, known bool, milli int64, o model.Origin) {
		if known {
			facts[name] = model.NumberValue(milli, o)
		}
	}
	say("riding", rider.Riding.Known, int64(rider.Riding.Value)*1000, rider.Riding.Origin)
	say("rider_kg", rider.Mass.Known, int64(rider.Mass.Value), rider.Mass.Origin)
	say("total_kg", rider.Mass.Known, int64(rider.Mass.Value+rider.Load.Or(0)+massOf(b)+50)/100*100, rider.Mass.Origin)
	say("height_cm", rider.HeightCM.Known, int64(rider.HeightCM.Value*1000+0.5), rider.HeightCM.Origin)
	say("inseam_cm", rider.InseamCM.Known, int64(rider.InseamCM.Value*1000+0.5), rider.InseamCM.Origin)
	return facts
}

// massOf is the bike's own mass: the sum of what is fitted, where every mass is known.
func massOf(b *model.Bike) model.Grams {
	sum := model.Grams(0)
	for _, f := range b.Fitted {
		if !f.None && !f.Grams.Known {
			return ordinaryBike
		}
		sum += f.Grams.Value
	}
	return sum
}
