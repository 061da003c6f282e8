"""Rules of the road: brakes asked for, license groups, axle and bridge weights, widths and lengths.

Federal text of the United States, read in the edition its source names; States add their own. What is not known
here says so and sends the reader to ask locally. No answer here means that nothing is needed.
"""
