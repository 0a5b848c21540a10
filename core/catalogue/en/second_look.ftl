### The second look: how many deficiencies nobody found.

looks-nothing = Neither look found anything: that says nothing of what was missed.
looks-bounded = { $found } were found; there were about { $in_all } in all, and by 95 % confidence { $low } to { $high }.
looks-unbounded = { $found } were found, and nothing by both; there were about { $in_all } in all, and at least { $low }: with nothing in common there is no upper bound.
assumes-more = { $pairs ->
    [one] one pair is few
   *[other] { $pairs } pairs are few
}: from { $few } on the numbers begin to say something.
assumes-independent = The second looked without knowing what the first had found. Who knows it looks better there, and less seems to be missed.
assumes-alike = Each deficiency is as easy to find as another. What is hard to see for everybody is missed by both, and then more is missed than is told here.
assumes-same = Nothing changed between the two looks. What the first had corrected is left out; looks more than twelve hours apart are no pair.
assumes-drawn = The loads were drawn, and not chosen: account second-look --draw N draws them.
second-look-title = The second look: what nobody found
second-look-pairs = { $pairs ->
    [one] { $pairs } pair
   *[other] { $pairs } pairs
} of inspections of one load by two people.
second-look-points = By point
second-look-inspectors = By inspector: of what the other found
second-look-share = { $inspector }: { $found } of { $of }, { $percent } % ({ $low } to { $high })
second-look-assumes = What this takes to be so
second-look-source = Chapman's estimate (1951) with the exact hypergeometric interval.
second-look-drawn = Ask somebody else than who looked first, and do not tell them what was found:
second-look-draw-line = { $load }, looked at by { $inspector } { $issued }, list { $procedure }
second-look-none = No load stands inspected here that was not lifted since.
