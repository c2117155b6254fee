from growers.harvest.rules import usual_lengths


def test_feet_by_the_floor_rule():
    # 3 ft = 0.9144 m; 5 ft up to 6 ft = 1.524 to 1.8288 m; 9 ft = 2.7432 m and longer.
    lengths = usual_lengths("ft")
    assert [label for label, _low, _high in lengths] == [f"{n} ft" for n in range(3, 10)]
    assert lengths[0] == ("3 ft", 0.9144, 1.2192)
    assert lengths[2] == ("5 ft", 1.524, 1.8288)
    assert lengths[-1] == ("9 ft", 2.7432, None)


def test_metric_steps_of_twenty_centimetres():
    lengths = usual_lengths("20cm")
    assert lengths[0] == ("80-100 cm", 0.8, 1.0)
    assert lengths[-1] == ("260-280 cm", 2.6, 2.8)
    assert len(lengths) == 10
