/** What `offcuts --help` says below its options. */
export const OFFCUTS_HELP = `The rack is a text file, rack.yaml in this folder unless --rack says another.
You may write in it as well; your comments stay.

  holdfast offcuts list                   what is on the rack
  holdfast offcuts add seat-plan          the leftovers of a plan that was cut;
                                          what it took off the rack is marked
                                          as used at the same time
  holdfast offcuts add --size 800x400 --material birch18 --thickness 18 \\
                       --grain first      one offcut by hand
  holdfast offcuts use seat-plan          all that a plan takes, before it is cut
  holdfast offcuts use R12 R15            by their labels
  holdfast offcuts take-back R12          back on the rack; or of a whole plan

A plan is the folder that holdfast plan wrote, or the plan.json in it. The same
plan is added only once. The next plan takes what is on the rack: that of
its parts file (rack: racks/wall.yaml), else rack.yaml beside it, or --rack. An
offcut is taken for a material only where its material is the same key and its
thickness is the same.

A rack file:
  format: holdfast-rack/1
  unit: mm                     # or in
  currency: EUR                # only where offcuts have a price
  next-number: 13              # of the next label, so that none comes twice
  offcuts:
    - id: R12                  # what its label says
      material: birch18        # the key in the parts file
      thickness: 18
      size: 800 x 400          # length x width
      grain: first             # along the first number, the second, or none
      trim: 5                  # not usable along every edge; none if left out
      from: { job: Window seat, sheet: 2 }
      date: 2026-03-31
      price: 6.50              # what it counts; nothing if left out
      note: one corner bruised
      state: on-rack           # or used, with used-by: { job: Stool }`;
