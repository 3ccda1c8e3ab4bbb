"""Condition reports of a sailing yacht's steering gear and rig.

Read `pipeline.py` first: it tells the whole run in six calls.
"""
