"""What an ad says of its price besides the sum: firm or open to offers, and that there is none: ask, trade, free."""

from __future__ import annotations

import re

from interchange.ads.fields import PriceRead, Span

_REACH = 48  # characters looked at behind a price

_FIRM = re.compile(
    r"\b(?:price(?:s| is| are)? firm|firm (?:on|price)|firm\b(?=[ \t]{0,2}(?:$|\n|[.,;!)]))|non?[- ]?neg"
    r"(?:otiable)?\b|no negociable|festpreis|bottom dollar|firm\b|no (?:offers|less|haggling)"
    r"|no low ?ball\w{0,5}|not negotiable)",
    re.IGNORECASE,
)
_OBO = re.compile(
    r"\b(?:o\.? ?b\.? ?o\b|(?:or )?best (?:reasonable )?offer|(?<!no )(?<!not )(?:neg(?:otiable)?|negoci[ao]ble|n[ée]gociable)\b"
    r"|reasonable offers?|or b\.?/?o\b|or best\b|o\.?n\.?o\b|or near(?:est)? offer|(?:might"
    r"|could) take\b|but (?:i|he|we|she|they)'?d take"
    r"|needs? (?:it |this |them )?gone|must sell\b|need (?:the )?(?:room|space)|price can be talked|[0-9k] or (?:an? )?offers?\b"
    r"|a tratar|come down|cheaper|open to offers|vhb|vb\b)",
    re.IGNORECASE,
)
_FIRM_AFTER = re.compile(r"[ \t]{0,2}(?:cash)?[ \t]{0,2}[-,(/]?[ \t]{0,2}(?:is )?(?:firm\b|non[- ]?neg)", re.IGNORECASE)
_CALL = re.compile(
    r"(?:\b|(?=\$))(?:(?:call|text|pm|dm|message|msg|e?mail|inquire|contact|ask)(?: (?:me|us|seller|dealer))?(?: "
    r"(?:for|4|about|on|with))?(?: (?:a|the|our|your))? (?:pric(?:e|ing)|quote|best offer|offers?)\b"
    r"|price (?:on|upon|by) (?:request|application|inquiry)|p\.?o\.?a\.?\b(?=[ \t]*(?:$|\n|[.,;)]))|"
    r"(?:make|send)(?: me| us)?(?: an?)?(?: reasonable| fair| best| serious| after-?sale)? offers?\b"
    r"|(?:shoot|hit|throw|pm|dm|text|message|give)(?: me| us)? (?:with )?(?:an? "
    r"|your )?(?:best )?offers?\b|what(?:'ll| would| will|'d) (?:you|u|ya) give"
    r"|(?:name|say) your price|ask me what i want|bid what you think"
    r"|(?:wants? to|would|i'?ll|he'?ll) (?:hear|take|entertain|listen to) (?:any )?(?:serious )?offers?\b"
    r"|looking for offers?\b|price by (?:pm|dm|phone|text|e?mail)|no price (?:on|in) (?:the )?(?:internet|ad|here)"
    r"|what it'?s worth to you|what (?:can|could) you do for me|what you'?d (?:pay|give)\b|first (?:good|decent|fair) offer"
    r"|not (?:gonna|going to|goin to) name a (?:number|price|figure)|(?:give|tell) you a (?:price|figure|number)"
    r"|taking offers|offers? (?:only|welcome|considered|accepted)"
    r"|(?:call|text|pm|dm|message)(?: me)? w/? ?(?:an? |your )?offers?\b|not going to (?:put|post|list) a (?:number|price)"
    r"|(?:make|send) off ?(?:er|her)s?\b|(?:call|ask|inquire) (?:for|4) \$|(?:price|\$)[ \t.:]{0,6}(?:call|ask|tbd)\b"
    r"|(?:pm|dm|text|message|send|give)(?: me)? (?:a |your )(?:number|price|figure|bid)"
    r"|(?:pm|dm|message|text|write|call)(?: me| us)? with offers?\b|what(?:'?s| is) it worth to you|whatever you think"
    r"|inquire (?:within )?(?:for|about) pric\w{1,3}|price (?:tbd|unknown|open)"
    r"|you tell me\b|no prices\b|(?:call|message|text|ask|write)(?: me| us)? (?:with"
    r"|for) (?:what you need|parts? prices?|prices?|rates?)\b"
    r"|(?:tell|let) me (?:know )?what you(?:'re| are)? (?:need|want|after|looking for)\b[^.\n]{0,24}"
    r"\b(?:price|number|quote|figure)"
    r"|name (?:yours|a figure|your figure|your number|a number|me a price)|(?:make|offer) (?:me|us) (?:one|something)\b"
    r"|(?:call|phone|ring|ask|write)\b[^.\n]{0,16} for (?:my |our |a |the )?(?:number|price|pricing|quote|figure)s?\b"
    r"|price[ \t]{2,40}(?:call|ask|inquire|on request)|prices? (?:on request|by appointment|depends?\b|reasonable|negotiable\b)"
    r"|offers? (?:wanted|invited|taken|by (?:phone|mail|pm|e-?mail))|(?:we|i)(?:'ll| will)? quote\b|will quote\b"
    r"|(?:rather not|not putting|don'?t put|won'?t (?:put|name))[^.\n]{0,16}\b(?:price|number|figure)"
    r"|any reasonable (?:figure|number|price)|what you(?:'d| would) (?:give|offer|pay)\b"
    r"|come look[^.\n]{0,12}(?:then|and) we talk"
    r"|(?:taking|accepting|entertaining|open to)(?: all| any)? offers\b|best offer\b|price: ?(?:call|ask"
    r"|tbd)\b|no price\b|obo\b)",
    re.IGNORECASE,
)
_TRADE = re.compile(
    r"\A[ \t\n]{0,4}(?:swap|trade|ft|wtt)\b[: ]|\b(?:(?:will|would|want to|wanna|looking to|like to|wants to"
    r"|hoping to) (?:trade|swap)\b"
    r"|straight (?:trade|swap)\b|(?:trade|swap) (?:straight|even|only)\b"
    r"|(?:^|\n)[ \t]{0,3}(?:trade|swap)[ \t!.]{0,3}(?=\n)"
    r"|(?:trade|swap)(?: it| this| the lot| all of it)? (?:for|4)\b|consider(?:ing)? (?:swapping|trading|a swap|a trade)\b"
    r"|wtt\b|(?:straight|even) across\b|(?:no|don'?t want|not want|want no) (?:cash|\$\$?|money)(?![\w$])|even (?:trade|swap)\b"
    r"|for trade\b|(?:trade|swap)s? only\b|trades? considered\b|(?:will|would) (?:consider )?trade?s?\b)",
    re.IGNORECASE,
)
_FREE_LINE = re.compile(
    r"(?:^|\n)[ \t]{0,4}(?:price:? ?)?(?P<free>free)(?:[ \t!.]{0,4}(?=\n|$)|[ \t](?!(?:delivery|shipping"
    r"|local|freight|quote|if|estimate|to|for|of|from)\b))|\b(?P<taken>free to (?:good home|haul|whoever)"
    r"|free to (?:an?|any|the first|some) (?=\w)|free for the (?:taking|hauling)|free for (?:hauling|pick ?up)"
    r"|no charge for (?:it|the|this))",
    re.IGNORECASE,
)


def terms(text: str, span: Span) -> str | None:
    """`firm` or `obo`, said beside the price or anywhere."""
    after = text[span.end : span.end + _REACH]
    line = after.partition("\n")[0]
    if _FIRM_AFTER.match(after):
        return "firm"
    if _OBO.search(line):
        return "obo"
    if _FIRM.search(text):
        return "firm"
    return "obo" if _OBO.search(text) else None


_DENIED = re.compile(r"\b(?:no|not|never|won['’]?t|don['’]?t)\s{1,2}\Z", re.IGNORECASE)
NOT_SAID = PriceRead("none", None, None, None, "", Span(0, 0), 1.0)


def no_price(text: str) -> PriceRead:
    """What is said in place of a price: given away, ask the seller, a trade; or nothing."""
    free = _FREE_LINE.search(text)
    if free:
        span = Span(*free.span("free" if free["free"] else "taken"))
        note = "given away, or no price set" if free["free"] else "given away"
        return PriceRead("asked", 0, None, None, text[span.start : span.end], span, 0.5 if free["free"] else 0.8, note)
    for kind, pattern in (("call", _CALL), ("trade", _TRADE)):
        match = pattern.search(text)
        if match and not _DENIED.search(text[max(0, match.start() - 10) : match.start()]):
            terms = "obo" if kind == "call" and _OBO.search(match.group()) else None
            return PriceRead(kind, None, None, terms, match.group(), Span(*match.span()), 0.85)
    return NOT_SAID
