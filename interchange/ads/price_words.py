"""The words about a number that say whether it is the price asked, and what else it may be. Every pattern is linear in time."""

from __future__ import annotations

import re

ASKED = re.compile(
    r"(?:asking|asks?|price[ds]?|preis|prix|precio|prijs|cena|wants?|wanting|sell(?:ing)?(?: it| them| all)? for|yours for"
    r"|take[sn]?|i'?d take|sacrifice|let (?:it )?go for|would like|like to (?:get|see)|looking to get|hop(?:e|ing) to get"
    r"|(?:somebody|someone|anybody) give me|ask for it|how(?:'s|s| is| about)|settle for|accept"
    r"|need|(?:go|let (?:it|her|them) go|going) (?:cheap )?(?:for|at)|lowest|no less than|thinking"
    r"|(?:i|we|he|she|they)(?:'?d| would) (?:like|love|want|be (?:happy|glad|fine|ok|okay) (?:with|at|to get))"
    r"|happy with|best (?:i|we) can do is|have it for|costs? you"
    r"|(?:i'?m|i am|we'?re|we are|he'?s|she'?s) at|sitting at|fixed price|start(?:s|ing) at|set at|open at"
    r"|offers (?:over|around|above|near|upwards of|in excess of)|(?:lowest|least|bottom)[^.,;\n]{0,20}(?:is|at)"
    r"|(?:would|will|can|could)(?:n't| not)? go (?:as low as|to|down to|lower than|under|below|less than)"
    r"|satisfied with|content with|part with (?:it|her|this|them) for|looking for|hoping for|want(?:s|ed)? to get|trying to get"
    r"|figure[ds]?(?: on)?|would be|make (?:it|that)|call it|say|our price|outright"
    r"|come get it for|have to (?:have|get)|got to (?:have|get)"
    r"|buy it now|bin|make it|now|only|just|gets? it|cash|first|obo|firm|sale)"
    r"(?:[ \t]{0,2}(?:is|at|of|price|reduced|to|it|a|an even|around|\((?:usd|eur|gbp|cad|mxn|sek|dkk|nok|us|[$€£]){1,3}\)"
    r"|about|only|just|am|all|for|the|somewhere|in|[:=~@–-]"
    r"|\.{2,3})){0,3}[ \t]{0,2}[:=~@–-]?[ \t]{0,2}\Z",
    re.IGNORECASE,
)
FOR = re.compile(r"\b(?:for|at|@)[ \t]{0,2}\Z", re.IGNORECASE)
LEADER = re.compile(r"(?:\.{4,}|_{4,}|…{2,})[ \t]{0,3}\Z|[ \t](?:--|–|—|=)[ \t]{0,2}\Z")
TAIL = re.compile(
    r"[ \t]{0,2}[/,.(–-]?[ \t]{0,2}(?:or best|o\.? ?b\.? ?o\b|firm\b|neg(?:otiable)?\b|cash\b|takes? (?:it"
    r"|all|both|everything)\b|each\b|ea\b|apiece\b|buys\b|gets it\b|delivered\b|shipped\b|picked up\b"
    r"|last price\b|or trades?\b|or b/?\.?o\b|(?:is|was) the price\b|would (?:buy|get|take) it\b|sounds?\b|is yours\b"
    r"|o\.?n\.?o\b|for (?:the|it|him|her|both|all|everything)\b|or near|even\b|bucks\b|bottom (?:dollar|line|price)"
    r"|all day\b|(?:and|n|an) (?:it'?s yours|you|not a)|come (?:and )?get it|obo\b|and no less\b"
    r"|is (?:what|fair|all|my|the|lowest|firm)\b|lowest\b|seems fair|picks? it up|meet me\b|and not (?:a|one)\b"
    r"|ish\b|mark\b|range\b|no less\b|both\b"
    r"|plus (?:the|you|ship|mail|post|freight|s&h)|(?:or )?make (?:an? |me an? )?offer|(?:and|n) (?:the|she|he|it"
    r"|this)\b[^.;\n]{0,30}\byours\b"
    r"|or (?:an? )?offers?\b|owns it\b|would do\b|will do\b)",
    re.IGNORECASE,
)
SENTENCE_END = re.compile(
    r"[ \t]{0,2}(?:$|[\n.,;!)?]|[0-9]|plus\b|\+|or\b|delivered\b|shipped\b"
    r"|obo\b|firm\b|cash\b|each\b|if\b|takes?\b|and\b|but\b|[-–]\s)",
    re.IGNORECASE,
)
WAS = re.compile(
    r"\b(?:was|were|been asking|was thinking|had (?:it|this|them) (?:listed )?at|used to be|marked|originally|original price"
    r"|old price|regular(?:ly)?|reg|reduced from"
    r"|start(?:ed)? (?:out )?at|began at|first asked|down from|dropped from|lowered from|from|before)"
    r"(?:[ \t]{1,2}(?:asking|listed|price|at|for)){0,2}[ \t]{0,2}[:]?[ \t]{0,2}\Z",
    re.IGNORECASE,
)
ONLY_FROM = re.compile(r"(?<!reduced )(?<!down )(?<!dropped )(?<!lowered )\b(?:from|before)[ \t:]{0,3}\Z", re.IGNORECASE)
NEW_PRICE = re.compile(r"\b(?:new|reduced|lowered|sale|final|firm) price(?: is| now)?[ \t]{0,2}:?[ \t]{0,2}\Z", re.IGNORECASE)
GO_FOR = re.compile(
    r"\b(?:similar|others?|ones|these|those|they|[A-Z0-9-]{2,6}s)\b[^.;!?\n]{0,40}\b(?:go|going|goes|sell|selling|bring|fetch)[ ]"
    r"(?:for[ ])?(?:about |around )?\$?\Z",
    re.IGNORECASE,
)
OUTRIGHT = re.compile(r"\boutright[ \t:]{1,3}\Z", re.IGNORECASE)
EXCHANGE = re.compile(r"\bexch(?:ange)?\.?\b", re.IGNORECASE)
BETWEEN = re.compile(r"\b(?:between|priced from|from)[ ]\Z", re.IGNORECASE)
OF_A_METER = re.compile(r"\b(?:hours?|hrs|serials?|built|years?|meter|miles|lbs?|pounds|made)\b", re.IGNORECASE)
WHOLE_RANGE = re.compile(r"\b(?:some|any)where (?:between|from)[ ](?:[0-9][0-9.,]{0,8} (?:and|to)[ ])?\Z", re.IGNORECASE)
AND = re.compile(r"[ ]and[ ](?:about )?")
OTHER = re.compile(
    r"\b(?:(?:will|can|would|could) pay(?: up to)?|paying(?: up to)?|paid|spent|spend|cost|costs|costing"
    r"|invested|put|worth|value[d]?|valued at|retails?|retail|list(?:s|ed)?|new(?: ones?)?(?: is| are"
    r"| was)?|sells for|sold for"
    r"|deposit|core charge|core|shipping|freight|deliver(?:y|ed|s)?|haul(?:ing)?|quoted?|owed?s?|(?<!offers )over"
    r"|receipts?(?: for)?|fee|down payment|budget|another|knock off|realized|last (?:sale|auction|week|year)"
    r"|used to (?:bring|get)"
    r"|(?:would|will|could|can) (?:you|u|ya) (?:do|take|go|accept)|(?<!lowest )"
    r"(?<!least )(?:i'?d|id|i would|i'?ll) (?:do|go|give|pay|offer)"
    r"|postage"
    r"|(?:current|opening|starting|minimum|min|next|max|high|highest|winning|your max)\.?(?: acceptable)? bid|bid(?:ding)?"
    r"|hammer(?: price)?|premium|capped|load ?out|travel|should ask|(?:won'?t|wont|wouldn'?t|not) take|got"
    r"|save|off|discount|reward|offered|turned down|crate(?:d|ing)?|palletiz\w{2,4}|tax|doc fee|load(?:ing)?)"
    r"(?:[ \t]{1,2}(?:is|are|was|were|me|us|him|for|at|of|from|about|around|over|up to|an?|new|price|charge|in"
    r"|in it|into it|over|it|on|will|run|runs|be)){0,3}[ \t]{0,2}[:(]?[ \t]{0,2}\Z",
    re.IGNORECASE,
)
SPENT = re.compile(
    r"\b(?:(?:will|can|would|could) pay(?: up to)?|paying(?: up to)?|paid|spent|cost me|invested|worth"
    r"|owed?)[ \t]{1,2}(?:about |over |around )?\Z",
    re.IGNORECASE,
)
OTHER_AFTER = re.compile(
    r"[ \t]{0,2}(?:new\b|used\b|core (?:charge|deposit)|deposit|for (?:shipping|delivery|freight|crating)"
    r"|for (?:the |a |an? new |new )?(?:tires?|tyres?|rebuild|machine work|gaskets?|kit)\b|(?:last"
    r"|this) (?:year|spring|fall)\b"
    r"|cents?\b|(?:for the (?:pair|set|both)[ ]{1,2})?\(?(?:last (?:year|fall|spring|summer|winter|month|week)|years? ago)\b"
    r"|/(?!each|ea\b|apiece|or\b|obo|o\.b|best|bo\b|b\.o|trade|offer|firm|neg|cash|take|mi\b|mile|hr|hour|day|wk|week|mo\b|month"
    r"|std|h\b|both|all|set|pair|pr\b|lot|unit|eng)[a-z]{2,10}\b"
    r"|per (?:roll|bale|lb|pound|acre|foot|ft|ton|bushel|cord|head|loaded)\b"
    r"|postage\b|to (?:mail|post)\b|off\b|worth of\b"
    r"|shipping|delivery|freight|to (?:ship|deliver|crate|load|rebuild|fix)"
    r"|(?:bid|min(?:imum|\.)?(?: bid)?|load ?out|handling)\b|\?|each way\b|(?:loaded |a )mile\b|c/d\b"
    r"|in (?:parts|receipts|repairs|work|it)|worth\b|invested|value\b|extra\b|more\b|off\b|per "
    r"(?:loaded )?mi(?:le)?\b|/mi\b|a mile\b|an? hour labor)",
    re.IGNORECASE,
)
RENTAL = re.compile(
    r"[ \t]{0,2}(?:for [0-9]{1,2} (?:hours?|hrs?|days?|weeks?)\b|(?:/|per|a|an|each"
    r"|every)[ \t]{0,2}(?:[0-9]{1,2}[ ]?)?(?:h|hrs?|hour|day|wk|week|weekend|mo|month|std)\b|"
    r"(?:hourly|daily|weekly|monthly)\b)",
    re.IGNORECASE,
)
RANGE = re.compile(r"[ \t]{0,2}(?:-|–|to|or)[ \t]{0,2}\Z", re.IGNORECASE)
PLACED_BEFORE = re.compile(
    r"\b(?:ships?|shipping|shipped|located|pick ?up|zip|near|delivered)(?: (?:from|in|at|to|code))?[ \t:]{1,3}\Z", re.IGNORECASE
)
AFTER_PAUSE = re.compile(r"[,–-][ \t]{0,2}\Z")
HALF_RANGE = re.compile(r"(?<![\w.])\$?(?P<low>[0-9]{1,3}(?:\.[0-9])?)[ \t]?(?:-|–|to)[ \t]?\$?\Z")
UP_FROM = re.compile(r"[$€£][ \t]{0,2}[0-9][0-9.,]{0,12}k?[ \t]{0,2}(?:-|–|to)[ \t]{0,2}\Z", re.IGNORECASE)  # $800-1000
COUNT_FOR = re.compile(
    r"(?<![\w.$-])(?P<count>[2-9]|1[0-9]|two|three|four|five|both)(?: of them)? ?(?:for|@)[ \t]{0,2}\Z", re.IGNORECASE
)
EACH = re.compile(r"[ \t]{0,2}/?[ \t]{0,2}(?:each|ea|apiece|a ?piece)\b", re.IGNORECASE)
SYMBOLS = re.compile("[\u2190-\u22ff\u2600-\u27bf\U0001f000-\U0001faff]")
RUNS_ON = re.compile(r"[a-z,][ \t]{0,2}\n[ \t]{0,2}\Z")  # the line before goes on: "now" at its end, the price below
BARE_UP_FROM = re.compile(r"(?<![\w$.,-])[1-9][0-9]{2,5}[ ]?(?:-|–|to)[ ]?\Z", re.IGNORECASE)
PLUS = re.compile(r"(?:\+|\bplus)[ \t]{0,2}\Z", re.IGNORECASE)
CORE_AFTER = re.compile(r"[ \t]{0,2}(?:refundable )?core\b", re.IGNORECASE)
LAST_WORD = re.compile(r"[ \t]{0,2}(?:last price|bottom|(?:and )?that'?s (?:the|my) (?:bottom|last))", re.IGNORECASE)
AUCTION = re.compile(
    r"(?<!no )\b(?:(?:current|opening|starting|minimum|min\.?|next|high|winning|sealed"
    r"|max)(?: acceptable)? bids?|buyer'?s premium|bidding"
    r"|hammer price|bid now|now bidding|bids? (?:so far|to date)|absentee bids?"
    r"|absolute auction|sells absolute|reserve (?:not met|is off|off)|highest bidder|to bidder|sealed bid|(?:estate"
    r"|property|consignment|public|online) auction|no reserve|buyer premium)\b",
    re.IGNORECASE,
)
ASKED_AT_AUCTION = re.compile(r"\b(?:will take|asking|buy it now|buy now|or best offer)[ \t:]{0,3}\Z", re.IGNORECASE)
HISTORY = re.compile(r"\b(?:bought|paid|cost|gave|spent|invested|quoted|traded|had the|had it)\b[^.;!?\n]{0,60}\Z", re.IGNORECASE)
RENTED_BY = re.compile(r"\b(?:day|daily|hour|hourly|week|weekly|month|monthly|weekend)[ \t:]{0,3}\Z", re.IGNORECASE)
RENTS = re.compile(r"\b(?:rent(?:al|als|ed|s)?|hire)\b", re.IGNORECASE)
SENT = re.compile(
    r"\b(?:mail|ship|post|send|freight|crate|deliver)(?:ing|ed|s)?\b[^.;!?\n]{0,44}\b(?:for|at|is|costs?|runs?"
    r"|about|around)[ \t]{1,2}\Z",
    re.IGNORECASE,
)
EDITED = re.compile(
    r"(?:^|\n)[ \t]{0,3}\**(?:edit(?:ed)?|updated?|price drop|reduced|lowered|dropped)\b[^\n]{0,24}\Z", re.IGNORECASE
)
ASIDE = re.compile(r"\([^()\n]{0,40}\Z")  # in brackets, with other words before it
FOR_SEVERAL = re.compile(r"[ \t]{1,2}for (?:the |a )?(?:pair|set|lot|both|all)\b", re.IGNORECASE)
BOTH = re.compile(
    r"\b(?:both|all (?:of (?:it|them)|three|four)|(?:the )?(?:pair|lot))[ \t]{1,2}(?:for|at|@)[ \t]{0,2}\Z", re.IGNORECASE
)
COMES_DOWN = re.compile(r"(?:/|\b(?:would|might|could|may|but))[ \t]{0,2}take[ \t]{0,2}\Z", re.IGNORECASE)
TRADE_ONLY = re.compile(
    r"\b(?:trades? only|only (?:a )?trades?|wtt|(?:want|looking) to trade only|no cash|(?:don'?t"
    r"|do not) want (?:any )?(?:money|cash|\${1,4})"
    r"|not for (?:cash|money))\b|\bno \${1,4}(?![\w$])",
    re.IGNORECASE,
)
SAME_AGAIN = re.compile(
    r"\b(?:(?:ask(?:ing)?|want(?:ing)?|take|sell(?:ing)?(?: it)? for|get) (?:only )?(?:just )?(?:the same|that"
    r"|what (?:i|we|he|she) (?:paid|gave))"
    r"|(?:so |for )?the same again|same as (?:i|we) paid|(?:want|get) (?:my|our) money (?:back|out)|what (?:i"
    r"|we) (?:paid|gave|have in it))\b",
    re.IGNORECASE,
)
PAID = re.compile(r"\b(?:paid|gave|bought (?:it|this) for|have)[ \t]{1,2}(?:about |only |just )?\Z", re.IGNORECASE)
SO_ASKED = re.compile(
    r"\b(?:that|which|it)(?:'s| is)? (?:is )?(?:what|all) (?:i'?m|i am|we'?re|we are|i|we) (?:asking|ask|want|after|need)\b",
    re.IGNORECASE,
)
STRONG = re.compile(r"\b(?:asking|price|sell(?:ing)? (?:it )?for)[ \t]{0,2}[:=]?[ \t]{0,2}\Z", re.IGNORECASE)
BY_ITSELF = re.compile(r"(?:[.!?,;:|/]|[–-])[ \t]{1,2}\Z")
MODEL_BEFORE = re.compile(r"\b[A-Z][A-Za-z]{2,14}[ ]\Z")
SHORT_TAIL = re.compile(
    r"[ \t]{0,2}(?:takes? (?:it|all|both|the)|obo\b|firm\b|or best|cash\b|and (?:it'?s|its) yours|gets it)", re.IGNORECASE
)
WANTS = re.compile(r"\b(?:asking|price|wants?|need|take)(?: about| around| bout| maybe| like)?[ \t]{1,2}\Z", re.IGNORECASE)
SHORT_END = re.compile(r"[ \t]{0,2}(?:$|[\n.;!]|obo\b|firm\b|or best|for (?:it|the)\b)", re.IGNORECASE)
TENTHS = re.compile(r"[1-9][0-9]?\.[0-9]")
SENTENCE_OVER = re.compile(r"[ \t]{0,2}(?:[.!;|]|$|\n|,[ ]|/[ ])")
FOR_HIRE = re.compile(
    r"(?<!never )(?<!not )\b(?:for|to) (?:rent|hire)\b|\brental (?:rates?|only)"
    r"|\b(?:rent|hire) (?:a|an|our|this|it|one|me|the|out|my)\b|(?:^"
    r"|\n)[ \t]{0,3}(?:rent|hire)\b[^\n]{0,16}:",
    re.IGNORECASE,
)
CODE = re.compile(r"(?<![A-Za-z])(EUR|GBP|CAD|SEK|DKK|NOK|CHF|PLN|CZK|MXN|AUD)(?![A-Za-z])|(€)|(£)")
CLAUSE_BEGINS = re.compile(r"(?:^|[.;,:&+]|\band)[ \t]{0,3}\Z", re.IGNORECASE)
NOUN_AFTER = re.compile(r"[ \t]{1,2}(?!and\b|or\b|but\b|it\b|he\b|takes?\b|for\b|if\b|runs\b)[a-z]", re.IGNORECASE)
COUNTS_SOMETHING = re.compile(
    r"[ \t]{0,2}(?:on (?:the|it|her|that|this|meter|a)\b|series\b|style\b|model\b|watts?\b|grit"
    r"|since|/|x[ 0-9]|[-–][0-9]|,[ ]?[0-9]{3})",
    re.IGNORECASE,
)
IS = re.compile(r"(?:#[0-9]|\b(?:one|price|engine|motor|pump|trans|block|all|that))(?: is|'s)[ \t]{1,2}\Z", re.IGNORECASE)
RANGE_OF = re.compile(r"[-–][1-9][0-9]{2,3}(?![-0-9]|[ \t]?(?:h\b|hr|hour|rpm|lb|psi|hp\b|mi\b|series|#))", re.IGNORECASE)
PAUSE_AFTER = re.compile(r"[ \t]{0,2}(?:,|[-–—]|;)")
WORD_BEFORE = re.compile(r"[A-Za-z)0-9][ \t]{1,3}\Z")
OR_ELSE = re.compile(r"\bor[ ]\Z", re.IGNORECASE)
RANGE_ON = re.compile(r"[ \t]{1,2}(?:to|-|–)[ \t]{1,2}[0-9]")
NAMES_BEFORE = re.compile(
    r"\b(?:serial|s/?n|no\.?|number|model|route|rt|hwy|highway|(?<![0-9] )(?:hours?|hrs?)|meter|tach|clock|reads?"
    r"|code|zip|box|plate|ends(?: in)?"
    r"|is|tag|about|around|lbs?|weighs?|rpm|at|route|lifts|or|year|in|since|from|of|a|an|the|for"
    r"|has|have|had|with)[ \t:#.]{0,3}\Z",
    re.IGNORECASE,
)
CORRECTED = re.compile(
    r"(?:that'?s|that is|i mean|meaning|means|should (?:be|say|read)|make that|correction:?|oops,?)[ ](?:really |only |just )?\Z",
    re.IGNORECASE,
)  # "$75000 (that's 750 and no/100)"
EXCHANGE = re.compile(r"[ ,]{0,2}(?:\(?exch\w{0,6}|w(?:/|ith)[ ]?(?:your |good |rebuildable )?(?:core|exch))", re.IGNORECASE)
ANSWERS = re.compile(
    r"[ \t]{0,4}(?:[A-Z][\w.]{0,14}[ ]?:[ ]{1,3})?(?:(?:no|nope|nah|yes|yeah|ok|well|still|firm|sorry|u|like)[,. ]{1,2}){0,2}\$?",
    re.IGNORECASE,
)
TIGHT_RANGE = re.compile(
    r"[ ]?[-–][ ]?[1-9][0-9]{1,3}[05](?![0-9-])(?![ ]?(?:hp|hrs?|hours?|rpm|lbs?|psi|kw|mi|miles|ft|acres|series|model"
    r"|v\b|kg|watts?)\b)",
    re.IGNORECASE,
)
OTHER_WAY = re.compile(
    r"[ ]{0,2}(?:delivered|shipped|with|w/|installed|loaded|if|for (?:both|all)|exch|outright|cash)", re.IGNORECASE
)
MARKED_DOWN = re.compile(
    r"\W{0,8}(?:now|reduced to|down to|dropped to|lowered to|dropping to|to clear|sale"
    r"|-{1,2}>|=>|→|>)[ ]?(?:only |just |at )?\W{0,4}",
    re.IGNORECASE,
)  # between an old price and a new one
OR_NUMBER = re.compile(r"[0-9][ ](?:or|to)(?: maybe)?[ ]\Z")
ANOTHER_FIGURE = re.compile(r"\b(?:hours?|hrs|year|miles|hp|serial|weigh\w{0,2}|meter|how old|phone|number)\b", re.IGNORECASE)
WOULD_TAKE = re.compile(
    r"(?:\b(?:would|will|'d|'ll|might|could|can|may)|/|,)[ ]?(?:even )?take[ ]{1,2}(?:as little as |about )?\$?\Z", re.IGNORECASE
)
ONLY_TERMS = re.compile(r"[ \t]{0,2}[/,(–-]?[ \t]{0,2}(?:firm|o\.?b\.?o|obo|neg|or best|or (?:an? )?offer)", re.IGNORECASE)
FOR_ALL = re.compile(
    r"\b(?:or (?:take )?everything|(?:or take|takes?) (?:it )?all(?: of it)?|or the lot)(?: above| listed)?(?: for| at)? ?\$?\Z",
    re.IGNORECASE,
)
OUTRIGHT = re.compile(r"\boutright\b", re.IGNORECASE)
