/** What `gauge --help` says below its options: the safe way to read, which readings, and a file to start from. */
export const GAUGE_HELP = `Take the readings with the spindle stopped and locked, hands and clothes clear
of the pump inlet and of every open hose; switch the pump off to change a plate
or a sheet. Local rules, the makers' instructions and trained people come first.
What is printed are estimates: make a test cut.

Readings, and what each needs (bare numbers in mm, kPa, N; or in, inHg, lbf):
  bare     nothing on the table: vacuum
  covered  an airtight sheet on it: sheet, vacuum
  kerf     open kerfs in such a sheet: sheet, length, width, vacuum
  hole     a plate with a drilled hole at the end of the hose: diameter, vacuum
  tilt     the board tilted until a test piece slides: angle
  pull     a square of panel, held, pulled until it slides: square, vacuum,
           force; weight; covered-beside: yes where the board beside is covered
Two vacuums (bare and covered) give the permeability for the pump as given.
From three on the pump's vacuum is fitted too; its flow needs a known hole. A
good set of eight: bare; covered; a kerf of 10 m or more; two bare with a
throttle (a plate with a hole between pump and table, the gauge on the table's
side) that bring the gauge to a third and to two thirds; and three of kind hole
that bring it to a third, a half and two thirds; with a pump for deep vacuum,
holes that keep it under 40 kPa. Three tilts give the friction; a pull gives it
under vacuum (squares of 200 mm or more). Film-faced test pieces take surface:
film-faced. The table is written as in a parts file; what the readings give may
be left out.

A readings file:
  unit: mm
  table:
    size: 2500 x 1250
    pump: { kind: blower, flow: 520, vacuum: 26 }
    spoilboard: { kind: mdf, thickness: 18 }
    altitude: 300 m
  readings:
    - { kind: bare, vacuum: 15.2 kPa }
    - { kind: bare, throttle: 20, vacuum: 6.8 }
    - { kind: covered, sheet: 2440 x 1220, vacuum: 25.4 }
    - { kind: kerf, sheet: 2440 x 1220, length: 20 m, width: 6, vacuum: 23.6 }
    - { kind: hole, diameter: 32, vacuum: 13 }
    - { kind: tilt, angle: 23 }
    - { kind: pull, square: 200, vacuum: 20, force: 29 kg, weight: 0.5 kg }
`;
